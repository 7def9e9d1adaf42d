import { z } from 'zod';

/** Deeper than anything that is sent, and far from what would exhaust the stack. */
const MOST_DEEP = 16;

export const isShallow = (sent: unknown): boolean => !isDeeperThan(MOST_DEEP, sent);
export const TOO_DEEP = `Nothing here is more than ${MOST_DEEP} levels deep.`;

/** A JSON Merge Patch (RFC 7396) of something that is held to its own schema once it is merged. */
export const PatchBody = z.record(z.string(), z.unknown()).refine(isShallow, TOO_DEEP);

/** The members of a change that were sent; what is absent stays as it is. */
export function membersSent<Change extends object>(change: Change) {
  const sent = Object.entries(change).filter(([, value]) => value !== undefined);
  return Object.fromEntries(sent) as { [Name in keyof Change]?: Exclude<Change[Name], undefined> };
}

function isDeeperThan(most: number, value: unknown): boolean {
  let level = [value];
  for (let depth = 0; depth <= most; depth++) {
    level = level.flatMap((one) => (typeof one === 'object' && one !== null ? Object.values(one) : []));
    if (level.length === 0) return false;
  }
  return true;
}

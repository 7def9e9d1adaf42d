import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import * as store from './bench-time.store.ts';
import { writeChange } from './time-records.ts';

/**
 * Writes a time back to what it was before a change, as its next version.
 *
 * @returns what stands in the way, in words: the time was changed since, another timer runs now, or was stopped since
 */
export function takeBackTime(tx: Db, by: WrittenBy, { before, after }: { before: unknown; after: unknown }): string | undefined {
  const [old, left] = [before as store.BenchTimeRow, after as store.BenchTimeRow];
  const now = store.findBenchTime(tx, left.id);
  if (now?.version !== left.version) return 'the time has changed since';
  if (old.state === 'running' && store.findRunning(tx, old.personId)) return 'another one runs now, and one timer runs at a time';
  if (isLongerAgain(old, left) && store.overlapping(tx, { ...spanOf(old), except: old.id }).length > 0)
    return 'other work was noted since, at the same time';
  writeChange(tx, by, now, { state: old.state, stoppedAt: old.stoppedAt });
  return undefined;
}

/** Its end goes back to later, or to none: a time in doubt has no place in the day. */
function isLongerAgain(old: store.BenchTimeRow, left: store.BenchTimeRow): boolean {
  if (old.minutesByHand !== null || left.stoppedAt === null || old.state === 'in_doubt') return false;
  return old.stoppedAt === null || old.stoppedAt > left.stoppedAt;
}

function spanOf({ personId, startedAt, stoppedAt }: store.BenchTimeRow) {
  return { personId, startedAt, stoppedAt };
}

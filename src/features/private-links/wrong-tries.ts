import type { Clock } from '../../platform/clock.ts';

const MOST = 20;
const HOUR_MS = 3_600_000;
const MOST_ADDRESSES = 10_000;

/** Counts tries at links that are not there, by address: whoever guesses waits for the rest of the hour. */
export function createWrongTries(clock: Clock) {
  const tries = new Map<string, { count: number; since: number }>();

  const current = (address: string) => {
    const found = tries.get(address);
    const ageMs = found ? clock.now().getTime() - found.since : 0;
    // Below nothing when the clock was put back.
    if (found && ageMs >= 0 && ageMs < HOUR_MS) return found;
    tries.delete(address);
    return undefined;
  };

  return {
    tooMany: (address: string): boolean => (current(address)?.count ?? 0) >= MOST,
    add(address: string): void {
      const { count, since } = current(address) ?? { count: 0, since: clock.now().getTime() };
      // The oldest is forgotten first, so that many addresses fill no memory.
      if (tries.size >= MOST_ADDRESSES) tries.delete(tries.keys().next().value!);
      tries.set(address, { count: count + 1, since });
    },
  };
}

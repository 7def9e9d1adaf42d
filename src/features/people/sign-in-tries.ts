import type { Clock } from '../../platform/clock.ts';
import { Problem } from '../../platform/http/problem.ts';

const FREE = 5;
const FIRST_WAIT_S = 5;
/** No longer: whoever types wrong passwords must not keep the right person out. */
const LONGEST_WAIT_S = 300;
const MOST_NAMES = 10_000;

/**
 * Counts wrong passwords by the name they were tried for, from wherever they come, and whether or not somebody has that name. The wait
 * doubles with each, up to five minutes. Addresses are slowed apart from this, by the route.
 */
export function createSignInTries(clock: Clock) {
  const tries = new Map<string, { wrong: number; nextAt: number }>();
  return {
    /** Counts a try as wrong before it is looked at, so that many at once are slowed too. @throws {Problem} while the wait is not over */
    charge(name: string): void {
      const now = clock.now().getTime();
      const { wrong, nextAt } = tries.get(name) ?? { wrong: 0, nextAt: 0 };
      const waitS = Math.ceil((nextAt - now) / 1000);
      // A longer one is of a clock that was put back since.
      if (waitS > 0 && waitS <= LONGEST_WAIT_S)
        throw new Problem(
          'too-many-requests',
          `Too many wrong passwords for this name: the next may be tried in ${waitS} seconds`,
          {
            retryAfterS: waitS,
          },
        );
      tries.delete(name);
      // Who was tried longest ago is forgotten first, so that many names fill no memory.
      if (tries.size >= MOST_NAMES) tries.delete(tries.keys().next().value!);
      const next = wrong + 1;
      const seconds = next < FREE ? 0 : Math.min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** (next - FREE));
      tries.set(name, { wrong: next, nextAt: now + seconds * 1000 });
    },
    /** The right password ends the count. */
    forget: (name: string) => void tries.delete(name),
  };
}

import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { putTries, triesOf } from './tablets.store.ts';

/** Wrong ones that may follow each other without a wait: a person's fingers slip, and several people's at one tablet. */
const FREE = { person: 3, tablet: 10 } as const;
const FIRST_WAIT_S = 30;
const LONGEST_WAIT_S = 3600;

export interface Tried {
  personId: string;
  tabletId: string;
}

/**
 * Counts a try as wrong before it is looked at, so that tries that come all at once are slowed as those that follow each other. The wait
 * doubles with each wrong one, up to an hour, for this person at every tablet and for this tablet with every person.
 *
 * @throws {Problem} while the wait is not over
 */
export function chargeTry(tx: Db, tried: Tried, at: Date): void {
  const counters = countersOf(tried).map((counter) => ({ ...counter, ...triesOf(tx, counter.who) }));
  const waitsS = counters.map(({ nextAt }) => (nextAt === null ? 0 : Math.ceil((Date.parse(nextAt) - at.getTime()) / 1000)));
  // A longer one is of before the clock was put back.
  const waitS = Math.max(...waitsS.filter((one) => one <= LONGEST_WAIT_S), 0);
  if (waitS > 0)
    throw new Problem('too-many-requests', `Too many wrong PINs: the next may be tried in ${waitS} seconds`, {
      retryAfterS: waitS,
    });
  for (const { who, free, wrong } of counters) {
    const next = wrong + 1;
    const seconds = next < free ? 0 : Math.min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** (next - free));
    putTries(tx, { who, wrong: next, nextAt: seconds === 0 ? null : new Date(at.getTime() + seconds * 1000).toISOString() });
  }
}

/** A right PIN ends the count of its person; of the tablet it only takes itself back, or one's own PIN would buy tries at another's. */
export function creditTry(tx: Db, tried: Tried): void {
  const [person, tablet] = countersOf(tried);
  putTries(tx, { who: person.who, wrong: 0, nextAt: null });
  putTries(tx, { who: tablet.who, wrong: Math.max(0, triesOf(tx, tablet.who).wrong - 1), nextAt: null });
}

function countersOf({ personId, tabletId }: Tried) {
  return [
    { who: `person ${personId}`, free: FREE.person },
    { who: `tablet ${tabletId}`, free: FREE.tablet },
  ] as const;
}

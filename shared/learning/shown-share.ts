import { EngineInputError } from '../engine-input-error.ts';

/** How often something happened, and how sure that is. */
export interface ShownShare {
  /** happened ÷ times; null of none. */
  plain: number | null;
  /** (x + ½) / (n + 1): never nothing and never all, since few times prove neither. */
  shown: number;
  /** The true share lies between these in 95 studios of 100; from 0 to at most 3/n where it never happened. */
  least: number;
  most: number;
}

const TAIL = 0.025;

/**
 * The share of a few cases, with an honest interval.
 *
 * Plain x/n; shown (x + ½)/(n + 1). The interval is Clopper and Pearson's: the shares p under which so many cases or more, and so
 * many or fewer, each have a chance of 2.5 % at least. Where x is 0 it is 0 to 3/n (the rule of three, 95 % on one side), at most 1.
 *
 * @param of happened x and times n, whole numbers, 0 ≤ x ≤ n ≤ 100 000
 * @returns shares 0 to 1; of no times at all, nothing is known: 0 to 1
 * @throws {EngineInputError} for counts that are none
 * @source C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404; J. A. Hanley and A. Lippman-Hand, JAMA 249 (1983) 1743; the
 *   shown share is that of Jeffreys' prior, as Brown, Cai and DasGupta, Statistical Science 16 (2001) 101, have it
 */
export function shownShare({ happened, times }: { happened: number; times: number }): ShownShare {
  if (!(Number.isInteger(times) && times >= 0 && times <= 100_000))
    throw new EngineInputError('times', times, 'whole, 0 to 100000');
  if (!(Number.isInteger(happened) && happened >= 0 && happened <= times))
    throw new EngineInputError('happened', happened, 'whole, 0 to times');
  const shown = (happened + 0.5) / (times + 1);
  if (times === 0) return { plain: null, shown, least: 0, most: 1 };
  return {
    plain: happened / times,
    shown,
    least: happened === 0 ? 0 : solve((p) => chanceOfAtMost(happened - 1, times, p), 1 - TAIL),
    most:
      happened === 0 ? Math.min(1, 3 / times) : happened === times ? 1 : solve((p) => chanceOfAtMost(happened, times, p), TAIL),
  };
}

/** P(X ≤ k) of n tries with chance p each: falls from 1 to 0 as p goes from 0 to 1. */
function chanceOfAtMost(k: number, n: number, p: number): number {
  let logTerm = n * Math.log1p(-p);
  let sum = Math.exp(logTerm);
  for (let i = 1; i <= k; i++) {
    logTerm += Math.log((n - i + 1) / i) + Math.log(p) - Math.log1p(-p);
    sum += Math.exp(logTerm);
  }
  return sum;
}

/** Where a falling chance is as wanted, by halving: 50 steps are finer than a double needs. */
function solve(chance: (p: number) => number, wanted: number): number {
  let [low, high] = [0, 1];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (chance(middle) > wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

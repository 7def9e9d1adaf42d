/** Whether a question can be answered with any plan at all: asked many times over, of parts of it and of looser ones. */

import { AllowanceSpent } from './allowance.ts';
import { NO_MEANS, type HeatAnswer, type HeatOracle } from './heat-oracle.ts';
import { COUNTS, LevelSearch } from './level-search.ts';
import { restricted } from './restricted-problem.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** What may still be spent; shared by all that is asked for one answer. */
export interface Purse {
  /** Below zero once it is spent. */
  workUnits: number;
  isStopped?: (() => boolean) | undefined;
}

export interface Posed {
  problem: SequenceProblem;
  oracle: HeatOracle;
}

export const isSpent = ({ workUnits, isStopped }: Purse): boolean => workUnits <= 0 || (isStopped?.() ?? false);

/** From this many joints on any plan is first sought without turning back. */
const DIVED_FROM = 7;

/** An oracle that pays from the purse for each heat it has not answered before, and throws AllowanceSpent when it is empty. */
export function remembering(oracle: HeatOracle, purse: Purse): HeatOracle {
  const known = new Map<string, HeatAnswer>();
  return {
    ...oracle,
    workUnitsPerRun: 1,
    run(section, technique) {
      const key = JSON.stringify([section.made, section.targets, technique]);
      let answer = known.get(key);
      if (!answer) {
        if (isSpent(purse)) throw new AllowanceSpent();
        purse.workUnits -= oracle.workUnitsPerRun;
        answer = oracle.run(section, technique);
        known.set(key, answer);
      }
      return answer;
    },
  };
}

/**
 * Whether any plan of some of the joints, or of all, reaches the least margin; null when the purse does not last. Plans without
 * protections are looked at first, then those with one for the whole section in a heat: there are far fewer.
 *
 * @param posed its oracle made by remembering() from the same purse
 */
export function* canBeMade({ problem, oracle }: Posed, purse: Purse, only?: readonly number[]): Generator<void, boolean | null> {
  const asked = only ? restricted(problem, only) : problem;
  if (asked.joints.some(({ allowed }) => allowed === 0)) return false;
  const mayProtect = Object.values(asked.maxMeans).some((most) => most > 0);
  const bare = { problem: { ...asked, maxMeans: NO_MEANS }, oracle };
  const plainly = { problem: asked, oracle: { ...oracle, sectionMeansTogether: 1 } };
  const attempts = mayProtect ? [bare, plainly, { problem: asked, oracle }] : [bare];
  let made: boolean | null = false;
  for (const attempt of attempts) {
    made = yield* isMade(attempt, purse);
    if (made !== false) return made;
  }
  return made;
}

function* isMade({ problem, oracle }: Posed, purse: Purse): Generator<void, boolean | null> {
  if (isSpent(purse)) return null;
  const search = new LevelSearch(problem, oracle, purse.workUnits);
  const { leastK } = problem.margin;
  try {
    if (problem.joints.length >= DIVED_FROM || search.hasProtections) {
      const dived = yield* search.dive(leastK, COUNTS, search.masks, { width: 1, bound: Infinity });
      if (dived) return true;
    }
    return (yield* search.feasible(leastK)) !== null;
  } catch (thrown) {
    if (!(thrown instanceof AllowanceSpent)) throw thrown;
    return null;
  } finally {
    purse.workUnits -= search.allowance.options + search.sections.laidOut;
  }
}

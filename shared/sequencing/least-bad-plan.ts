/** The plan that does least harm, where none does none. */

import type { Heat } from '../design/plan.ts';
import { designProblem, type DesignQuestion } from './design-problem.ts';
import type { HeatOracle } from './heat-oracle.ts';
import { heatsOf } from './plan-of-heats.ts';
import { searchLevels, type SearchStep } from './search-levels.ts';
import { bitsOf, type SequenceProblem } from './sequence-problem.ts';

/** No earlier joint is this far over its limit in any plan worth showing. K */
const WORST_K = 400;

/**
 * The highest margin below zero that some plan keeps; failing that, any plan that keeps the rules; failing that, one joint a heat,
 * in an order that keeps as much of the order rules as can be.
 */
export function* leastBadHeats(question: DesignQuestion, oracle: HeatOracle, workUnits: number): Generator<SearchStep, Heat[]> {
  const problem = designProblem(question);
  const { stepK } = problem.margin;
  for (const margin of [
    { leastK: -WORST_K, targetK: -stepK, stepK },
    { leastK: Number.NEGATIVE_INFINITY, targetK: Number.NEGATIVE_INFINITY, stepK },
  ]) {
    const found = yield* searchLevels({ ...problem, margin }, oracle, { workUnits, stopAt: 'heats', preferHigherGrades: false });
    if (found.heats) return heatsOf(problem, found.heats);
  }
  return oneByOne(problem);
}

function oneByOne(problem: SequenceProblem): Heat[] {
  const heats: Heat[] = [];
  const left = new Set(problem.joints.keys());
  while (left.size > 0) {
    const isFree = (j: number): boolean => [...left].every((other) => other === j || !problem.after[other]!.includes(j));
    const next = [...left].find(isFree) ?? [...left][0]!;
    left.delete(next);
    const grade = bitsOf(problem.joints[next]!.allowed)[0] ?? 0;
    const solder = problem.grades[grade];
    heats.push({ joints: [problem.joints[next]!.id], ...(solder ? { solder: solder.id } : {}) });
  }
  return heats;
}

/** The plan that does least harm, where none does none. */

import type { Heat } from '../design/plan.ts';
import { designProblem, type DesignQuestion } from './design-problem.ts';
import { NO_MEANS, type HeatOracle } from './heat-oracle.ts';
import { heatsOf } from './plan-of-heats.ts';
import { searchLevels, type LevelsFound, type SearchStep } from './search-levels.ts';
import { bitsOf, type SequenceProblem } from './sequence-problem.ts';

/** No earlier joint is this far over its limit in any plan worth showing. K */
const WORST_K = 400;

/** Work units for a plan without protections, where a search had no time to find any; after a stop of the host, for all joints. */
const QUICK_UNITS_A_JOINT = 3000;
const QUICK_UNITS = 8000;

/**
 * What was found, or, where the clock or the host left nothing, a plan without protections that does no harm, if a few steps find one:
 * nothing of it is proven.
 */
export function* orQuickPlan(
  question: DesignQuestion,
  oracle: HeatOracle,
  { found, isOvertime }: { found: LevelsFound; isOvertime: () => boolean },
): Generator<SearchStep, LevelsFound> {
  if (found.outcome !== 'unknown' || found.stoppedBy === 'work_units') return found;
  const problem = { ...designProblem(question), maxMeans: NO_MEANS };
  const workUnits = found.stoppedBy === 'host' ? QUICK_UNITS : QUICK_UNITS_A_JOINT * problem.joints.length;
  const stopped = () => (isOvertime() ? ('time' as const) : null);
  const quick = yield* searchLevels(problem, oracle, { workUnits, stopAt: 'heats', preferHigherGrades: false, stopped });
  if (!quick.heats) return found;
  const proof = quick.proof.map((level) => ({ ...level, bound: null, proven: false }));
  return { ...found, outcome: 'feasible', heats: quick.heats, proof };
}

/**
 * The highest margin below zero that some plan keeps; failing that, any plan that keeps the rules; failing that, one joint a heat with
 * falling grades, in an order that keeps as much of the order rules as can be. That is also what there is once it is long over.
 */
export function* leastBadHeats(
  question: DesignQuestion,
  oracle: HeatOracle,
  { workUnits, isLongOver = () => false }: { workUnits: number; isLongOver?: (() => boolean) | undefined },
): Generator<SearchStep, Heat[]> {
  const problem = designProblem(question);
  const { stepK } = problem.margin;
  const stopped = () => (isLongOver() ? ('time' as const) : null);
  for (const margin of [
    { leastK: -WORST_K, targetK: -stepK, stepK },
    { leastK: Number.NEGATIVE_INFINITY, targetK: Number.NEGATIVE_INFINITY, stepK },
  ]) {
    const found = yield* searchLevels({ ...problem, margin }, oracle, {
      workUnits,
      stopAt: 'heats',
      preferHigherGrades: false,
      stopped,
    });
    if (found.heats) return heatsOf(problem, found.heats);
  }
  return oneByOne(problem);
}

/** What closes a part on itself first, and grades that fall from heat to heat, as a hand would begin. */
function oneByOne(problem: SequenceProblem): Heat[] {
  const heats: Heat[] = [];
  const left = new Set(problem.joints.keys());
  const closes = (j: number): boolean => problem.joints[j]!.parts[0] === problem.joints[j]!.parts[1];
  while (left.size > 0) {
    const free = [...left].filter((j) => [...left].every((other) => other === j || !problem.after[other]!.includes(j)));
    const next = free.find(closes) ?? free[0] ?? [...left][0]!;
    const { id, allowed } = problem.joints[next]!;
    const grades = bitsOf(allowed);
    const solder = problem.grades[grades[Math.floor((heats.length * grades.length) / problem.joints.length)] ?? 0];
    left.delete(next);
    heats.push({ joints: [id], ...(solder ? { solder: solder.id } : {}) });
  }
  return heats;
}

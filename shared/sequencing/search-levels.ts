/** The objective, level by level: each is proven before the next is looked at, and never given up for it. */

import { AllowanceSpent, workUnits } from './allowance.ts';
import { BestPlan } from './best-plan.ts';
import { fewestChanges } from './fewest-changes.ts';
import type { HeatOracle } from './heat-oracle.ts';
import { allStages } from './level-stages.ts';
import { LevelSearch } from './level-search.ts';
import type { LevelName, Proof } from './levels.ts';
import type { PlannedHeat } from './planned-heats.ts';
import type { SequenceProblem } from './sequence-problem.ts';

export type StoppedBy = 'work_units' | 'time' | 'host';

export interface SearchLimits {
  workUnits: number;
  stopAt: LevelName;
  preferHigherGrades: boolean;
  /** Asked at every step; a reason ends the search. */
  stopped?: () => StoppedBy | null;
}

export interface SearchStep {
  workUnits: number;
  thermalRuns: number;
  /** The best plan so far, level by level; absent while there is none. */
  proof?: Proof[];
}

export interface LevelsFound {
  outcome: 'optimal' | 'feasible' | 'infeasible' | 'unknown';
  heats: PlannedHeat[] | null;
  proof: Proof[];
  stoppedBy: StoppedBy | null;
  workUnits: number;
  thermalRuns: number;
}

/** Runs all levels. Yields every 128 options, so that a host may stop it or do other work; ends early when its work units are spent. */
export function* searchLevels(
  problem: SequenceProblem,
  oracle: HeatOracle,
  limits: SearchLimits,
): Generator<SearchStep, LevelsFound> {
  const search = new LevelSearch(problem, oracle, limits.workUnits);
  const best = new BestPlan(problem, limits.preferHigherGrades);
  let stoppedBy: LevelsFound['stoppedBy'] = null;
  const spent = () => ({ workUnits: workUnits(search.allowance, search), thermalRuns: search.table.thermalRuns });
  try {
    const steps = allStages(search, best, limits.stopAt);
    while (!stoppedBy && !steps.next().done) {
      yield { ...spent(), ...(best.plan && { proof: best.proof() }) };
      stoppedBy = limits.stopped?.() ?? null;
    }
  } catch (thrown) {
    if (!(thrown instanceof AllowanceSpent)) throw thrown;
    stoppedBy = 'work_units';
  }
  best.proveByBounds();
  const outcome = outcomeOf(best.plan !== null, stoppedBy !== null, best.isProven(limits.stopAt));
  const heats = best.plan && fewestChanges(problem, best.plan.heats);
  // That no plan keeps the least margin is what was proven; of the other levels there is nothing to say.
  const nothing = best.order.map((level) => ({ level, value: null, bound: null, proven: true, heuristic: false }));
  return { heats, proof: outcome === 'infeasible' ? nothing : best.proof(), outcome, stoppedBy, ...spent() };
}

function outcomeOf(found: boolean, stopped: boolean, proven: boolean): LevelsFound['outcome'] {
  if (found) return proven ? 'optimal' : 'feasible';
  return stopped ? 'unknown' : 'infeasible';
}

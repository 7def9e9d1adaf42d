/** The heats that the search found, as a plan in the words of the design. */

import type { Heat, Plan } from '../design/plan.ts';
import { heatWith } from './heat-model-oracle.ts';
import { nameTogether } from './piece-graph.ts';
import type { PlanToCheck } from './plan-to-check.ts';
import type { PlannedHeat } from './planned-heats.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** In the ids of the expanded design. */
export function heatsOf(problem: SequenceProblem, planned: readonly PlannedHeat[]): Heat[] {
  return planned.map(({ targets, grade, technique }) => ({
    joints: targets.map((j) => problem.joints[j]!.id),
    solder: problem.grades[grade]!.id,
    ...heatWith(technique),
  }));
}

export function planOf({ given, jointsOf }: Pick<PlanToCheck, 'given' | 'jointsOf'>, heats: readonly Heat[]): Plan {
  return { heats: heats.map((heat) => ({ ...heat, joints: nameTogether(given, jointsOf, heat.joints) })) };
}

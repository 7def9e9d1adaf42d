import type { Design } from '../design/design.ts';
import type { Heat } from '../design/plan.ts';
import { isAnneal, type PlanToCheck } from './plan-to-check.ts';

/**
 * The design once some heats are done: their joints are made, each with the solder of its heat.
 *
 * @param heats in the ids of the expanded design
 */
export function withMade({ design, solders }: Pick<PlanToCheck, 'design' | 'solders'>, heats: readonly Heat[]): Design {
  const solderOf = new Map(heats.flatMap((heat) => (isAnneal(heat) ? [] : heat.joints.map((id) => [id, heat.solder] as const))));
  const joints = design.joints.map((joint) => {
    const solder = solders.find(({ id }) => id === solderOf.get(joint.id));
    return solder ? { ...joint, made: { solder } } : joint;
  });
  return { ...design, joints };
}

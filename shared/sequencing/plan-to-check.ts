/** A plan as the check takes it: the design with every count expanded, beside the one that was given. */

import type { Design } from '../design/design.ts';
import type { ExpandedDesign } from '../design/expand-design.ts';
import type { Bench, Heat, Plan } from '../design/plan.ts';
import type { Solder } from '../design/solder.ts';
import type { HeatPhysics, SolderNeedG } from './heat-physics.ts';

export interface Fault {
  /** JSON pointer into the request. */
  pointer: string;
  detail: string;
}

/** A heat with every counted joint named copy by copy. */
export interface ExpandedHeat {
  heat: Heat;
  /** Joints it makes; for an anneal, made joints it is held at. */
  targets: readonly string[];
}

export interface PlanToCheck {
  /** As it was given, with its counts. */
  given: Design;
  /** With every count expanded. */
  design: Design;
  jointsOf: ExpandedDesign['jointsOf'];
  partsOf: ExpandedDesign['partsOf'];
  solders: readonly Solder[];
  bench: Bench;
  plan: Plan;
  /** Whether the heats answer how their temperatures went. */
  histories?: boolean | undefined;
  physics: HeatPhysics;
  solderNeedG?: SolderNeedG | undefined;
}

export const isAnneal = ({ purpose }: Heat): boolean => purpose === 'anneal';

export function expandHeats({ plan, jointsOf }: Pick<PlanToCheck, 'plan' | 'jointsOf'>): ExpandedHeat[] {
  return plan.heats.map((heat) => ({ heat, targets: heat.joints.flatMap((id) => jointsOf(id)) }));
}

/** Ids of joints that exist before the first heat. */
export function madeBefore(design: Design): string[] {
  return design.joints.filter(({ made }) => made !== undefined).map(({ id }) => id);
}

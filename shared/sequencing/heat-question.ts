/** What the heat model is asked about a heat of a plan. */

import type { Heat } from '../design/plan.ts';
import type { Solder } from '../design/solder.ts';
import type { HeatQuestion, SolderRun } from '../thermal/heat-run.ts';
import { benchOfHeat } from '../thermal/torch.ts';
import { madeWith } from './design-problem.ts';
import { fireOf } from './piece-graph.ts';
import { isAnneal, type PlanToCheck } from './plan-to-check.ts';

export type CheckContext = Omit<PlanToCheck, 'plan' | 'given'>;

/** Sterling is annealed at about 650 °C. @source common bench practice; brought to flow "10 K over" as every target is. */
const ANNEAL = { id: 'anneal', liquidusC: 640 };

/** Joints made, and the temperatures of what they are made with. */
export type MadeJoints = ReadonlyMap<string, Pick<Solder, 'solidusC' | 'liquidusC'>>;

/** The joints that exist, and those that the heats before the one at an index make. */
export function jointsBefore({ design, solders }: CheckContext, heats: readonly Heat[], index: number): MadeJoints {
  const made = new Map(design.joints.flatMap((joint) => (joint.made ? [[joint.id, madeWith(joint)] as const] : [])));
  for (const heat of heats.slice(0, index)) {
    const solder = solders.find(({ id }) => id === heat.solder);
    if (!isAnneal(heat) && solder) for (const id of heat.joints) made.set(id, solder);
  }
  return made;
}

export interface PlayedHeat {
  /** Joints in and out of the fire that were made before it. */
  made: readonly string[];
  inFire: readonly string[];
  run: SolderRun;
}

/** A heat played with the solder it is planned with. It makes, or is held at, at least one joint. */
export function playPlanned(context: CheckContext, heat: Heat, before: MadeJoints, layered = false): PlayedHeat {
  const made = [...before.keys()].filter((id) => !isAnneal(heat) || !heat.joints.includes(id));
  const { inFire, bySolder } = context.physics.simulate({
    ...questionOf(context, heat, made),
    ...(layered && { layered }),
  });
  return { made, inFire, run: bySolder[isAnneal(heat) ? ANNEAL.id : heat.solder!]! };
}

function questionOf({ design, bench, solders, histories }: CheckContext, heat: Heat, made: readonly string[]): HeatQuestion {
  const targets = heat.joints;
  // Asked together for several targets, between which the flame is played, so that they come to what the search saw.
  const own = targets.length === 1 ? solders.filter(({ id }) => id === heat.solder) : solders;
  const asked: readonly Pick<Solder, 'id' | 'liquidusC'>[] = isAnneal(heat) ? [ANNEAL] : own;
  return {
    design,
    bench: benchOfHeat(bench, heat),
    targets,
    made: fireOf(design, made, targets).made,
    solders: asked,
    ...(histories ? { histories } : {}),
    ...(heat.flame ? { flame: heat.flame } : {}),
    ...(heat.protections ? { protections: heat.protections } : {}),
  };
}

import type { Design } from '../../../../shared/design/design.ts';
import type { Plan } from '../../../../shared/design/plan.ts';
import type { Solder } from '../../../../shared/design/solder.ts';
import { designFromTrueState, type JointState } from '../../../../shared/sequencing/true-state.ts';
import type { Piece } from './piece-plans.ts';

const isMade = (state: string) => state === 'sound' || state === 'doubtful';

/** The design with what has become of its joints at the bench: what is looked for now is a plan for the rest. */
export function asItIs(design: Design, { joints }: Piece, solders: readonly Solder[]): Design {
  const entered = new Map(design.joints.map((joint) => [joint.id, joint]));
  const states = joints.map(({ joint, state, heatId, solder, cadmiumStanding }): JointState => {
    if (!isMade(state)) {
      const hasSolder = state === 'open' && solders.some(({ id }) => id === solder?.id);
      return { joint, state: 'open', ...(hasSolder && { solderOnIt: solder!.id }) };
    }
    const came = heatId === null ? entered.get(joint)?.made : undefined;
    const made = { ...(came ?? { solder: solder ?? ('unknown' as const) }), cadmiumStanding };
    return { joint, state: 'made', made, doubtful: state === 'doubtful' };
  });
  return designFromTrueState(design, { joints: states });
}

/** Whether a plan is of the rest alone; one that is under way has heats of joints that are made by now. */
export function isOfTheRest({ heats }: Plan, { joints }: Design): boolean {
  const made = new Set(joints.filter((joint) => joint.made !== undefined).map(({ id }) => id));
  return heats.every((heat) => heat.joints.every((joint) => !made.has(joint)));
}

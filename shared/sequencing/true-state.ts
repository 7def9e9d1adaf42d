/** A piece as it truly is: what is made, with which solder, and what is in doubt. */

import type { Design, Joint } from '../design/design.ts';
import { expandDesign } from '../design/expand-design.ts';
import { EngineInputError } from '../engine-input-error.ts';

/** What has become of one joint, by its id in the expanded design or by an id that stands for all its copies. */
export type JointState =
  /** Sound, made with this solder. */
  | { joint: string; state: 'made'; made: NonNullable<Joint['made']>; doubtful?: boolean }
  /** It did not flow, or opened again, and has this solder on it: it is to be made with the same. */
  | { joint: string; state: 'open'; solderOnIt?: string };

export interface TrueState {
  joints: readonly JointState[];
}

/** A joint in doubt is held to its solidus, as one that is pulled on: it must not even soften. */
function withDoubt(joint: Joint): Joint {
  return joint.load === undefined || joint.load === 'none' ? { ...joint, load: 'own_weight' } : joint;
}

/**
 * The design from which a piece is planned again: sound joints as made with the solder really used, open ones open; one that has
 * solder on it keeps to that solder; a doubtful one must not soften in any later heat. Joints that the state does not name stay as
 * the design has them. The design comes back expanded, since copies may differ.
 *
 * @throws {EngineInputError} for a joint that is not in the design
 */
export function designFromTrueState(design: Design, { joints }: TrueState): Design {
  const { design: expanded, jointsOf } = expandDesign(design);
  const states = new Map<string, JointState>();
  for (const state of joints) {
    for (const id of jointsOf(state.joint)) {
      if (states.has(id)) throw new EngineInputError('joint', id, 'given one state');
      states.set(id, state);
    }
  }
  const grades: Record<string, { only?: string; exclude?: readonly string[] }> = { ...expanded.rules?.grades };
  const truly = expanded.joints.map((joint): Joint => {
    const state = states.get(joint.id);
    if (!state) return joint;
    const { made: _made, ...open } = joint;
    if (state.state === 'open') {
      if (state.solderOnIt !== undefined) grades[joint.id] = { ...grades[joint.id], only: state.solderOnIt };
      return open;
    }
    const sound = { ...open, made: state.made } as Joint;
    return state.doubtful ? withDoubt(sound) : sound;
  });
  return { ...expanded, joints: truly, rules: { ...expanded.rules, grades } };
}

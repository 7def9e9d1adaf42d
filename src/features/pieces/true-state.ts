import type { Design, Joint } from '../../../shared/design/design.ts';
import { expandDesign, expandHeat, type ExpandedDesign } from '../../../shared/design/expand-design.ts';
import type { Plan } from '../../../shared/design/plan.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import { designFromTrueState, type JointState } from '../../../shared/sequencing/true-state.ts';
import type { MadeJoint } from '../../platform/db/json-columns.ts';
import type { JointRow } from './joints.store.ts';

/** A piece as it truly is on the bench: what its plan is made from. */
export interface TrueState {
  /** Every joint by itself; those that exist with the solder really in them. */
  design: Design;
  made: MadeJoint[];
  /** Joints that are yet to be made, or to be made again. */
  open: string[];
}

/** A joint holds the piece together, for certain or not. */
export function isMade({ state }: Pick<JointRow, 'state'>): boolean {
  return state === 'sound' || state === 'doubtful';
}

/**
 * The design with what has become of its joints: sound ones made, with the solder really used; doubtful ones too, flagged; one
 * that moved is open again; one that did not flow but has solder on it keeps to that solder, where it may still be had.
 */
export function trueState(design: Design, rows: readonly JointRow[], solders: readonly Solder[]): TrueState {
  const entered = new Map(expandDesign(design).design.joints.map((joint) => [joint.id, joint]));
  const states = rows.map((row): JointState => {
    if (isMade(row)) {
      return {
        joint: row.jointId,
        state: 'made',
        made: madeOf(row, entered.get(row.jointId)),
        doubtful: row.state === 'doubtful',
      };
    }
    const hasSolder = row.state === 'open' && solders.some(({ id }) => id === row.solder?.id);
    return { joint: row.jointId, state: 'open', ...(hasSolder && { solderOnIt: row.solder!.id }) };
  });
  const truly = designFromTrueState(design, { joints: states });
  return {
    design: truly,
    made: rows.filter(isMade).map((row) => ({
      joint: row.jointId,
      solder: row.solder ?? ('unknown' as const),
      doubtful: row.state === 'doubtful',
    })),
    open: truly.joints.filter(({ made }) => !made).map(({ id }) => id),
  };
}

function madeOf(row: JointRow, entered: Joint | undefined): NonNullable<Joint['made']> {
  const { cadmiumStanding } = row;
  // A joint that came with the piece keeps what was assumed of it.
  if (row.heatId === null && entered?.made) return { ...entered.made, cadmiumStanding };
  return { solder: row.solder ?? 'unknown', cadmiumStanding };
}

function found(look: (id: string) => readonly string[], id: string): readonly string[] | undefined {
  try {
    return look(id);
  } catch {
    return undefined;
  }
}

/** A plan in the ids of single joints and parts; an id that stands for nothing stays, for the check to name. */
export function expandPlan(plan: Plan, design: Design): Plan {
  const expanded = expandDesign(design);
  const tolerant: ExpandedDesign = {
    ...expanded,
    partsOf: (id) => found(expanded.partsOf, id) ?? [id],
    // Where a part may stand in place of a joint, the look-up goes on among the parts.
    jointsOf: (id) => found(expanded.jointsOf, id) ?? (found(expanded.partsOf, id) ? expanded.jointsOf(id) : [id]),
  };
  return { heats: plan.heats.map((heat) => expandHeat(heat, tolerant)) };
}

/** Whether what exists is still what a plan was made from; a doubt that was looked at since changes nothing. */
export function sameMadeJoints(now: readonly MadeJoint[], then: readonly MadeJoint[]): boolean {
  return inWords(now) === inWords(then);
}

function inWords(made: readonly MadeJoint[]): string {
  return made
    .map(({ joint, solder }) =>
      JSON.stringify([joint, solder === 'unknown' ? solder : [solder.id, solder.solidusC, solder.liquidusC]]),
    )
    .toSorted()
    .join();
}

import type { Design, Part } from '../../../shared/design/design.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import { endsOf } from '../../../shared/design/joint-ends.ts';
import type { Heat } from '../../../shared/design/plan.ts';
import type { HeatCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { Db } from '../../platform/db/client.ts';
import { notFound } from '../../platform/http/problem.ts';
import * as store from './heats.store.ts';
import { jointsOnParts } from './joints-on-parts.ts';
import type { JointRow } from './joints.store.ts';
import { getPiece, type PieceRow } from './piece-reads.ts';
import { findDesign, type DesignRow } from './pieces.store.ts';
import { findPlan, type PlanRow } from './plans.store.ts';
import { isMade } from './true-state.ts';

/** A plan, as all of its heats stand in it. */
export interface PlanContext {
  piece: PieceRow;
  plan: PlanRow;
  design: DesignRow;
  /** The design with its copies of parts and joints spelled out. */
  single: Design;
}

/** A heat with all it stands in. */
export interface HeatContext extends PlanContext {
  row: store.HeatRow;
  /** As the plan has it. */
  planned: Heat;
  /** What the plan's check says of it. */
  checked: HeatCheck | undefined;
  /** Of the single parts of the design. */
  partsInFire: Part[];
}

export function getHeat(db: Db, id: string): HeatContext {
  const row = store.findHeat(db, id);
  if (!row) throw notFound('heat', id);
  return heatContext(db, row);
}

export function planContext(db: Db, planId: string): PlanContext {
  const plan = findPlan(db, planId)!;
  const design = findDesign(db, plan.designId)!;
  return { piece: getPiece(db, plan.pieceId), plan, design, single: expandDesign(design.body).design };
}

/** @param within its plan, where that is known already */
export function heatContext(db: Db, row: store.HeatRow, within: PlanContext = planContext(db, row.planId)): HeatContext {
  const { plan, single } = within;
  const checked = plan.checkResult?.heats[row.position - 1];
  const inFire = new Set(checked?.inFire ?? partsAt(single, row.joints));
  return {
    ...within,
    row,
    planned: plan.body.heats[row.position - 1]!,
    checked,
    partsInFire: single.parts.filter(({ id }) => inFire.has(id)),
  };
}

/** Joints of the piece that lie in the fire of a heat, its own among them. */
export function jointsInFire(db: Db, { row, single, partsInFire }: HeatContext): JointRow[] {
  return jointsOnParts(
    db,
    { single, pieceId: row.pieceId },
    partsInFire.map(({ id }) => id),
  );
}

/** Joints that exist, of which nobody knows the solder, however sound they look. */
export function unknownSolderIn(joints: readonly JointRow[]): string[] {
  return joints.filter((joint) => isMade(joint) && joint.solder === null).map(({ jointId }) => jointId);
}

function partsAt({ joints }: Design, ids: readonly string[]): string[] {
  return joints.filter(({ id }) => ids.includes(id)).flatMap(endsOf);
}

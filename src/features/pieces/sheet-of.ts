import type { CautionId } from '../../../shared/cautions/caution-table.ts';
import type { Design } from '../../../shared/design/design.ts';
import type { Heat } from '../../../shared/design/plan.ts';
import type { HeatCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { notFound, Problem } from '../../platform/http/problem.ts';
import { findProductByCode, lotsThatHold, toG } from '../stock/index.ts';
import { fluxOf } from './heat-flux.ts';
import { heatContext, planContext, type HeatContext } from './heat-context.ts';
import { cautionsOf } from './heat-cautions-due.ts';
import { placedFor } from './heat-reply.ts';
import { heatsOfPlan, lotOf, productOf, type HeatRow } from './heats.store.ts';
import { knowsPiece } from './known-pieces.ts';
import type { PieceRow } from './piece-reads.ts';
import { findPlan, type PlanRow } from './plans.store.ts';

/** One heat of a plan with all that a paper for the bench says of it. */
export interface SheetHeat {
  /** Of the piece, as people know it (H3), once the plan is laid out; else its place in the plan. */
  number: number;
  state: string | null;
  planned: Heat;
  checked: HeatCheck;
  product: { name: string; gradeWord: string; form: string; solidusC: number; liquidusC: number } | null;
  /** The one it was made ready with; else those that hold some of it. */
  lots: { number: string; markOnMetal: string | null }[];
  placedG: number;
  chips: number;
  fluxName: string;
  quench: 'air' | 'water';
  cautions: CautionId[];
}

export interface Sheet {
  piece: PieceRow;
  plan: Pick<PlanRow, 'number' | 'state'>;
  design: Design;
  heats: SheetHeat[];
}

/** A plan as somebody takes it to the bench. @throws {Problem} for one that is not checked */
export function sheetOf(db: Db, actor: Actor, planId: string): Sheet {
  const plan = findPlan(db, planId);
  if (!plan || !knowsPiece(db, actor, plan.pieceId)) throw notFound('plan', planId);
  if (!plan.checkResult) throw new Problem('condition-not-met', `Cannot print plan ${plan.number}: it is not checked yet`);
  const laidOut = heatsOfPlan(db, planId);
  const rows = laidOut.length > 0 ? laidOut : plan.body.heats.map((_heat, index) => notLaidOut(db, plan, index + 1));
  const within = planContext(db, planId);
  return {
    piece: within.piece,
    plan,
    design: within.design.body,
    heats: rows.map((row) => sheetHeat(db, heatContext(db, row, within), plan.checkResult!.heats[row.position - 1]!)),
  };
}

function sheetHeat(db: Db, heat: HeatContext, checked: HeatCheck): SheetHeat {
  const { row } = heat;
  const product = productOf(db, row);
  const lot = lotOf(db, row);
  const placed = placedFor(db, heat);
  const { partsInFire } = heat;
  return {
    number: row.number,
    state: row.state,
    planned: heat.planned,
    checked,
    product: product ?? null,
    lots: lot ? [lot] : product ? lotsThatHold(db).flatMap(({ lot: one }) => (one.productId === product.id ? [one] : [])) : [],
    placedG: toG(placed.reduce((sum, { tenthMg }) => sum + tenthMg, 0)),
    chips: placed.reduce((sum, { pieces }) => sum + pieces, 0),
    fluxName: fluxOf(db, heat).name,
    quench: partsInFire.some(({ hollow, maxC }) => hollow !== undefined || maxC !== undefined) ? 'air' : 'water',
    cautions: cautionsOf(db, heat).map(({ id }) => id as CautionId),
  };
}

/** A heat of a plan that is not in use yet, as it would be laid out. */
function notLaidOut(db: Db, plan: PlanRow, position: number): HeatRow {
  const { joints, purpose = 'solder', solder } = plan.body.heats[position - 1]!;
  return {
    id: '',
    pieceId: plan.pieceId,
    planId: plan.id,
    number: position,
    position,
    joints: [...joints],
    purpose,
    productId: solder === undefined ? null : (findProductByCode(db, solder)?.id ?? null),
    lotId: null,
    plannedTenthMg: 0,
    usedTenthMg: null,
    state: 'laid_out',
    readiness: null,
    outcome: null,
    seen: null,
    primedBy: null,
    litBy: null,
    alightAt: null,
    endedAt: null,
    version: 0,
    createdAt: plan.createdAt,
    observed: null,
    flux: null,
    benchId: null,
  };
}

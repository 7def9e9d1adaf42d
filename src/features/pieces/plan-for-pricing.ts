import type { Plan } from '../../../shared/design/plan.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import type { PlanCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { Db } from '../../platform/db/client.ts';
import { findProductByCode } from '../stock/index.ts';
import * as pieces from './pieces.store.ts';
import { plannedSolder } from './planned-solder.ts';
import * as store from './plans.store.ts';

export interface PlanForPricing {
  id: string;
  number: number;
  body: Plan;
  solders: Solder[];
  check: PlanCheck | null;
}

/** The plan a piece is priced by: the one in use, else the newest that was checked, else the newest draft. */
export function planForPricing(db: Db, pieceId: string): PlanForPricing | undefined {
  const row = pricedPlan(db, pieceId);
  return row && { id: row.id, number: row.number, body: row.body, solders: row.solders, check: row.checkResult };
}

export interface SolderNeeded {
  productId: string;
  /** The product's code, which is the id of its solder in the plan. */
  code: string;
  tenthMg: number;
}

/** What the heats of that plan take, by product; nothing for a solder that is in no drawer of ours. */
export function solderNeeded(db: Db, pieceId: string): SolderNeeded[] {
  const row = pricedPlan(db, pieceId);
  const design = row && pieces.findDesign(db, row.designId);
  if (!row || !design) return [];
  const codes = new Set(row.body.heats.flatMap(({ solder }) => solder ?? []));
  const products = [...codes].flatMap((code) => findProductByCode(db, code) ?? []);
  const ours = { heats: row.body.heats.filter(({ solder }) => products.some(({ code }) => code === solder)) };
  const placed = plannedSolder(design.body, ours, asTheyAre(db, row.solders));
  return products.map(({ id, code }) => ({
    productId: id,
    code,
    tenthMg: placed.filter(({ solder }) => solder === code).reduce((sum, { tenthMg }) => sum + tenthMg, 0),
  }));
}

/** Solders of a plan with what decides how much is placed taken from the product they are. */
export function asTheyAre(db: Db, solders: readonly Solder[]): Solder[] {
  return solders.map((solder) => {
    const product = findProductByCode(db, solder.id);
    if (!product) return solder;
    const { densityGPerCm3, smallestPieceG, metalFraction } = product;
    return { ...solder, densityGPerCm3, smallestPieceG, metalFraction };
  });
}

function pricedPlan(db: Db, pieceId: string): store.PlanRow | undefined {
  return (
    store.findPlanInUse(db, pieceId) ??
    store.findNewestPlan(db, pieceId, ['checked', 'signed']) ??
    store.findNewestPlan(db, pieceId, ['draft'])
  );
}

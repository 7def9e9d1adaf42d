import type { Design } from '../../../shared/design/design.ts';
import type { Plan } from '../../../shared/design/plan.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import type { PlanCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
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

/** What a piece is priced by. */
export interface DrawnPiece {
  design: Design;
  plan: PlanForPricing | undefined;
}

/** Those of these pieces that have a design, by id, with the plan each is priced by; read together, however many. */
export function drawnPieces(db: Db, pieceIds: readonly string[]): ReadonlyMap<string, DrawnPiece> {
  const plans = new Map(store.findPricedPlans(db, pieceIds).map((row) => [row.pieceId, forPricing(row)]));
  return new Map(
    pieces.findCurrentDesigns(db, pieceIds).map(({ pieceId, body }) => [pieceId, { design: body, plan: plans.get(pieceId) }]),
  );
}

function forPricing({ id, number, body, solders, checkResult }: store.PricedPlanRow): PlanForPricing {
  return { id, number, body, solders, check: checkResult };
}

export interface SolderNeeded {
  productId: string;
  /** The product's code, which is the id of its solder in the plan. */
  code: string;
  tenthMg: number;
}

/** What the heats of that plan take, by product; nothing for a solder that is in no drawer of ours. */
export function solderNeeded(db: Db, pieceId: string): SolderNeeded[] {
  const [row] = store.findPricedPlans(db, [pieceId]);
  const design = row && pieces.findDesign(db, row.designId);
  if (!row || !design) return [];
  const codes = new Set(row.body.heats.flatMap(({ solder }) => solder ?? []));
  const products = [...codes].flatMap((code) => findProductByCode(db, code) ?? []);
  const ours = { heats: row.body.heats.filter(({ solder }) => products.some(({ code }) => code === solder)) };
  const placed = plannedSolder(design.body, ours, solderTerms(db, row.solders));
  return products.map(({ id, code }) => ({
    productId: id,
    code,
    tenthMg: placed.filter(({ solder }) => solder === code).reduce((sum, { tenthMg }) => sum + tenthMg, 0),
  }));
}

/** What decides how much of the solders of a plan is placed: the products they are, and the trims the studio has learned. */
export function solderTerms(db: Db, solders: readonly Solder[]) {
  return { solders: asTheyAre(db, solders), trims: getSettings(db).solderTrims };
}

/** Solders of a plan with what decides how much is placed taken from the product they are. */
function asTheyAre(db: Db, solders: readonly Solder[]): Solder[] {
  return solders.map((solder) => {
    const product = findProductByCode(db, solder.id);
    if (!product) return solder;
    const { densityGPerCm3, smallestPieceG, metalFraction } = product;
    return { ...solder, densityGPerCm3, smallestPieceG, metalFraction };
  });
}

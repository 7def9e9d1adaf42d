import type { Design, Part } from '../../../shared/design/design.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import { endsOf } from '../../../shared/design/joint-ends.ts';
import { pieceWeight } from '../../../shared/forms/piece-weight.ts';
import { isCutFrom } from '../../../shared/stock/cut-from.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { getSettings } from '../settings/index.ts';
import { toTenthMg } from './grams.ts';
import { issuedToPiece, type MetalMovementRow } from './metal-lots.store.ts';
import * as store from './metal-holds.store.ts';
import { allMetalProducts, type MetalProductRow } from './metal-products.store.ts';

/** Metal that a piece takes: of which metal, and what that is cut from where something bought is of its sizes. */
export interface MetalNeeded {
  metal: string;
  productId: string | null;
  tenthMg: number;
}

/**
 * What has to be issued for the parts of a design, by what they are cut from: net, and what goes to offcuts, filings and the polish.
 * Parts that came with the piece take none, and nothing is kept of a metal that this studio does not keep in its book.
 */
export function metalNeeded(db: Db, design: Design): MetalNeeded[] {
  const { waste } = getSettings(db);
  const share = 1 + waste.offcutFraction + waste.filingsFraction + waste.unrecoveredFraction;
  const expanded = expandDesign(design).design;
  if (expanded.parts.length === 0) return [];
  const here = new Set(expanded.joints.filter(({ made }) => made !== undefined).flatMap(endsOf));
  const massG = new Map(pieceWeight(expanded).parts.map((one) => [one.part, one.massG]));
  const products = allMetalProducts(db).filter(({ active }) => active);
  const needs = new Map<string, MetalNeeded>();
  for (const part of expanded.parts) {
    const metal = metalIdOf(part);
    const own = products.filter((product) => product.metal === metal);
    if (here.has(part.id) || own.length === 0) continue;
    const productId = cutFrom(part, own)?.id ?? null;
    const key = `${metal} ${productId}`;
    const before = needs.get(key)?.tenthMg ?? 0;
    needs.set(key, { metal, productId, tenthMg: before + toTenthMg((massG.get(part.id) ?? 0) * share) });
  }
  return [...needs.values()];
}

/** Keeps metal for the pieces of a commission: what their client left covers its part, of ours is kept the rest. */
export function holdMetal(
  tx: Db,
  by: WrittenBy,
  { commissionId, pieces, at }: { commissionId: string; pieces: readonly { id: string; design: Design }[]; at: Date },
): void {
  const { holdFactor } = getSettings(tx);
  const left = store.clientMetalOf(tx, commissionId);
  for (const { id: pieceId, design } of pieces) {
    for (const { metal, productId, tenthMg } of metalNeeded(tx, design)) {
      const theirs = Math.min(tenthMg, Math.max(0, left.get(metal) ?? 0));
      left.set(metal, (left.get(metal) ?? 0) - theirs);
      const heldTenthMg = Math.round((tenthMg - theirs) * holdFactor);
      if (heldTenthMg > 0) store.addMetalHold(tx, by, { kind: 'hold', pieceId, metal, productId, heldTenthMg, at });
    }
  }
}

/** The same for a piece that came to a commission after it was agreed: unless metal was kept for it before, or it was cut. */
export function holdMetalOnce(
  tx: Db,
  by: WrittenBy,
  { commissionId, piece, at }: { commissionId: string; piece: { id: string; design: Design }; at: Date },
): void {
  if (store.wasHeld(tx, piece.id) || issuedToPiece(tx, piece.id).issuedTenthMg > 0) return;
  holdMetal(tx, by, { commissionId, pieces: [piece], at });
}

/** What is issued to a piece is no longer only kept for it: what it is cut from first, then the same metal in any form. */
export function takeFromMetalHold(
  tx: Db,
  by: WrittenBy,
  { movement: { id, pieceId, onHandTenthMg }, product }: { movement: MetalMovementRow; product: MetalProductRow },
): void {
  if (pieceId === null) return;
  const rank = ({ productId }: store.HeldMetal) => (productId === product.id ? 0 : productId === null ? 1 : 2);
  const held = store.heldMetal(tx, pieceId).filter(({ metal, tenthMg }) => metal === product.metal && tenthMg > 0);
  let left = -onHandTenthMg;
  for (const { metal, productId, tenthMg } of held.toSorted((a, b) => rank(a) - rank(b))) {
    const taken = Math.min(left, tenthMg);
    if (taken <= 0) return;
    store.addMetalHold(tx, by, { kind: 'issue', pieceId, metal, productId, heldTenthMg: -taken, movementId: id });
    left -= taken;
  }
}

/** An issue that is taken back is kept for its piece again, unless the piece needs it no more. */
export function giveBackToMetalHold(
  tx: Db,
  by: WrittenBy,
  { issueId, movementId }: { issueId: string; movementId: string },
): void {
  for (const { pieceId, metal, productId, heldTenthMg } of store.takenBy(tx, issueId)) {
    if (store.wasLetGo(tx, pieceId)) continue;
    store.addMetalHold(tx, by, { kind: 'reverse', pieceId, metal, productId, heldTenthMg: -heldTenthMg, movementId });
  }
}

export function freeMetal(tx: Db, by: WrittenBy, { pieceId, at }: { pieceId: string; at: Date }): void {
  for (const { metal, productId, tenthMg } of store.heldMetal(tx, pieceId))
    store.addMetalHold(tx, by, { kind: 'free', pieceId, metal, productId, heldTenthMg: -tenthMg, at });
}

/** Strip of its size before sheet. */
function cutFrom({ form }: Part, products: readonly MetalProductRow[]): MetalProductRow | undefined {
  const fit = products.filter((product) => isCutFrom(form, product.form));
  return fit.find((product) => product.form.kind !== 'sheet') ?? fit[0];
}

function metalIdOf({ metal }: Part): string {
  return typeof metal === 'string' ? metal : (metal.code ?? '');
}

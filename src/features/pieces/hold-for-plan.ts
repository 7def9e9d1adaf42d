import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { getSettings } from '../settings/index.ts';
import { holdMetalOnce, holdSolderAsPlanned } from '../stock/index.ts';
import { currentDesign } from './piece-reads.ts';
import { findCommission, findPiece } from './pieces.store.ts';
import { solderNeeded } from './plan-for-pricing.ts';

/** Before these nothing is kept for a commission: it may not come to be. */
const HELD_FOR = new Set(['agreed', 'on_bench', 'resting']);

/**
 * Keeps the drawer for a plan as it is taken into use, where its commission was agreed before: for a piece that was added or made
 * again since, and for grades that the plan before it did not take.
 */
export function holdForPlan(tx: Db, by: WrittenBy, pieceId: string): void {
  const { commissionId } = findPiece(tx, pieceId)!;
  if (!HELD_FOR.has(findCommission(tx, commissionId)!.state)) return;
  const { holdFactor } = getSettings(tx);
  const needed = solderNeeded(tx, pieceId).map((line) => ({ ...line, tenthMg: Math.round(line.tenthMg * holdFactor) }));
  holdSolderAsPlanned(tx, by, { pieceId, needed, at: by.at });
  const design = currentDesign(tx, pieceId)?.body;
  if (design) holdMetalOnce(tx, by, { commissionId, piece: { id: pieceId, design }, at: by.at });
}

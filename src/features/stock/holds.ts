import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { freeMetal } from './metal-holds.ts';
import { addMovement, heldForPiece, type MovementRow } from './stock-movements.store.ts';

/** Keeps solder of a product for a piece. It may hold more than there is: then the reorder list says so. */
export function holdSolder(
  tx: Db,
  by: WrittenBy,
  { pieceId, productId, tenthMg, at }: { pieceId: string; productId: string; tenthMg: number; at: Date },
): MovementRow {
  return addMovement(tx, by, { kind: 'hold', productId, pieceId, onHandTenthMg: 0, heldTenthMg: tenthMg, at });
}

/**
 * Keeps for a piece what a plan takes: what is kept already counts, and a product that it does not take is let go.
 *
 * @param needed with the margin that is held over it
 */
export function holdSolderAsPlanned(
  tx: Db,
  by: WrittenBy,
  { pieceId, needed, at }: { pieceId: string; needed: readonly { productId: string; tenthMg: number }[]; at: Date },
): void {
  const taken = new Set(needed.map(({ productId }) => productId));
  const held = heldForPiece(tx, pieceId).filter(({ tenthMg }) => tenthMg > 0);
  for (const { productId, tenthMg } of held)
    if (!taken.has(productId))
      addMovement(tx, by, { kind: 'free', productId, pieceId, onHandTenthMg: 0, heldTenthMg: -tenthMg, at });
  for (const { productId, tenthMg } of needed) {
    const more = tenthMg - (held.find((line) => line.productId === productId)?.tenthMg ?? 0);
    if (more > 0) holdSolder(tx, by, { pieceId, productId, tenthMg: more, at });
  }
}

/**
 * Lets go of all the solder that is held for a piece.
 *
 * @returns one movement for each product that was freed
 */
export function freeHold(tx: Db, by: WrittenBy, { pieceId, at }: { pieceId: string; at: Date }): MovementRow[] {
  return heldForPiece(tx, pieceId)
    .filter(({ tenthMg }) => tenthMg > 0)
    .map(({ productId, tenthMg }) =>
      addMovement(tx, by, { kind: 'free', productId, pieceId, onHandTenthMg: 0, heldTenthMg: -tenthMg, at }),
    );
}

/** Lets go of all that is held for a piece, solder and metal. */
export function freeHolds(tx: Db, by: WrittenBy, piece: { pieceId: string; at: Date }): void {
  freeHold(tx, by, piece);
  freeMetal(tx, by, piece);
}

/** What of a use comes out of the piece's own hold. */
export function heldShare(
  db: Db,
  { pieceId, productId, tenthMg }: { pieceId: string; productId: string; tenthMg: number },
): number {
  const held = heldForPiece(db, pieceId).find((line) => line.productId === productId)?.tenthMg ?? 0;
  return Math.max(0, Math.min(held, tenthMg));
}

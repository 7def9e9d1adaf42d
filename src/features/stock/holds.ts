import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { addMovement, heldForPiece, type MovementRow } from './stock-movements.store.ts';

/** Keeps solder of a product for a piece. It may hold more than there is: then the reorder list says so. */
export function holdSolder(
  tx: Db,
  by: WrittenBy,
  { pieceId, productId, tenthMg }: { pieceId: string; productId: string; tenthMg: number },
): MovementRow {
  return addMovement(tx, by, { kind: 'hold', productId, pieceId, onHandTenthMg: 0, heldTenthMg: tenthMg });
}

/**
 * Lets go of what is held for a piece: of one product or of all, so many or everything, and never more than is held.
 *
 * @returns one movement for each product that was freed
 */
export function freeHold(
  tx: Db,
  by: WrittenBy,
  { pieceId, productId, tenthMg = Infinity }: { pieceId: string; productId?: string; tenthMg?: number },
): MovementRow[] {
  return heldForPiece(tx, pieceId)
    .filter((held) => productId === undefined || held.productId === productId)
    .map((held) => ({ productId: held.productId, freed: Math.min(held.tenthMg, tenthMg) }))
    .filter(({ freed }) => freed > 0)
    .map((held) =>
      addMovement(tx, by, { kind: 'free', productId: held.productId, pieceId, onHandTenthMg: 0, heldTenthMg: -held.freed }),
    );
}

/** What of a use comes out of the piece's own hold. */
export function heldShare(
  db: Db,
  { pieceId, productId, tenthMg }: { pieceId: string; productId: string; tenthMg: number },
): number {
  const held = heldForPiece(db, pieceId).find((line) => line.productId === productId)?.tenthMg ?? 0;
  return Math.max(0, Math.min(held, tenthMg));
}

import { groupBy } from '../../../shared/group-by.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { toG } from './grams.ts';
import { lotsOldestFirst } from './solder-lots.store.ts';
import { allMovements, type MovementRow } from './stock-movements.store.ts';
import { usesOf, weeklyUse } from './weekly-use.ts';

const HISTORY_WEEKS = 52;

/** How a product was used: grams of each week, oldest first, and what the biggest piece took. */
export function productUse(db: Db, productId: string, today: string): { weeklyUseG: number[]; largestPieceG: number } {
  const { timeZone } = getSettings(db);
  const movements = allMovements(db, { productId });
  const uses = usesOf(movements).map(({ at, onHandTenthMg }) => ({
    day: dateInZone(new Date(at), timeZone),
    tenthMg: -onHandTenthMg,
  }));
  // Stock begins with its first delivery; a use that was booked for an earlier day begins it too.
  const since = [
    ...lotsOldestFirst(db, productId).map(({ receivedOn }) => receivedOn),
    ...movements.map(({ at }) => dateInZone(new Date(at), timeZone)),
  ].toSorted()[0];
  return {
    weeklyUseG: since === undefined ? [] : weeklyUse(uses, { since, today, atMost: HISTORY_WEEKS }).map(toG),
    largestPieceG: toG(largestPiece(movements)),
  };
}

/** The most that one piece has taken and still holds, together: what must not run out in its middle. */
function largestPiece(movements: readonly MovementRow[]): number {
  const ofPieces = movements.filter(({ pieceId }) => pieceId !== null);
  const byPiece = groupBy(ofPieces, ({ pieceId }) => pieceId);
  const taken = [...byPiece.values()].map(
    (own) =>
      usesOf(own).reduce((total, { onHandTenthMg }) => total - onHandTenthMg, 0) +
      own.reduce((total, { heldTenthMg }) => total + heldTenthMg, 0),
  );
  return Math.max(0, ...taken);
}

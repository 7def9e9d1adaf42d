import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getSettings } from '../settings/index.ts';
import { booksClosedUntil } from './closed-books.ts';
import { inGrams, SCALE_ERROR_TENTH_MG, toG } from './grams.ts';
import { heldShare } from './holds.ts';
import { countBack, seenByScale } from './counted-since.ts';
import { isPastUse, isUsable } from './offered-solders.ts';
import { getLot, lotsInDrawer, updateLot, type LotRow } from './solder-lots.store.ts';
import { getProduct } from './solder-products.store.ts';
import { addMovement, onHandByLot, onHandOf, placedByOtherHeats, type MovementRow } from './stock-movements.store.ts';

/**
 * The lot, when a heat may draw so much of this product from it now.
 *
 * @throws {Problem} cadmium-blocks, solder-lot-short (with other lots of the product that hold enough) or condition-not-met
 */
export function holdLotFit(
  tx: Db,
  { lotId, productId, heatId, tenthMg, at }: { lotId: string; productId: string; heatId: string; tenthMg: number; at: Date },
): LotRow {
  const lot = getLot(tx, lotId);
  const product = getProduct(tx, lot.productId);
  if (lot.productId !== productId) {
    const wanted = getProduct(tx, productId);
    throw new Problem(
      'condition-not-met',
      `Cannot take lot ${lot.number}: it is ${product.name}, this heat asks for ${wanted.name}`,
    );
  }
  holdFreeOfCadmium(lot, product);
  if (product.leadOrTinStanding !== 'no') {
    throw new Problem(
      'condition-not-met',
      `Cannot take lot ${lot.number} (${product.name}): lead or tin ${product.leadOrTinStanding === 'yes' ? 'is in it' : 'is unknown, and counts as yes'}`,
    );
  }
  if (lot.state !== 'sealed' && lot.state !== 'open') {
    throw new Problem('condition-not-met', notUsable(lot), { state: lot.state });
  }
  const today = dateInZone(at, getSettings(tx).timeZone);
  if (isPastUse(lot, today)) {
    throw new Problem('condition-not-met', `Cannot take lot ${lot.number}: it was to be used by ${lot.useBy}`, {
      useBy: lot.useBy,
    });
  }
  holdEnough(tx, lot, { tenthMg, today, heatId });
  return lot;
}

/**
 * Books the solder a heat really took. The lot is opened by its first use, and what was held for the piece shrinks by as much.
 *
 * @param use at: when the heat took it
 * @throws {Problem} solder-lot-short
 */
export function bookSolderUse(
  tx: Db,
  by: WrittenBy,
  { lotId, pieceId, heatId, tenthMg, at }: { lotId: string; pieceId: string; heatId: string; tenthMg: number; at: Date },
): MovementRow {
  const lot = getLot(tx, lotId);
  const wasSeen = seenByScale(tx, lotId, { at, now: by.at });
  if (!wasSeen) holdEnough(tx, lot, { tenthMg, today: dateInZone(at, getSettings(tx).timeZone) });
  openAtFirstUse(tx, by, lot);
  const movement = addMovement(tx, by, {
    kind: 'use',
    productId: lot.productId,
    lotId,
    pieceId,
    heatId,
    onHandTenthMg: -tenthMg,
    heldTenthMg: -heldShare(tx, { pieceId, productId: lot.productId, tenthMg }),
    ...openTime(tx, by, at),
  });
  if (wasSeen) countBack(tx, by, { movement, usedAt: at });
  return movement;
}

/** What comes to light of the time before a stocktake was counted without it: it is a correction of today. */
function openTime(db: Db, by: WrittenBy, at: Date): { at: Date; reason?: string } {
  const closedUntil = booksClosedUntil(db, by.at);
  if (closedUntil === null || at.toISOString() > closedUntil) return { at };
  return { at: by.at, reason: `used ${at.toISOString()}, before the stocktake that closed the books` };
}

export function openAtFirstUse(tx: Db, by: WrittenBy, lot: LotRow): void {
  if (lot.state !== 'sealed') return;
  const after = updateLot(tx, lot.id, { state: 'open', version: lot.version + 1 });
  writeJournal(tx, by, { what: 'solder-lot', id: lot.id, before: lot, after });
}

/**
 * @param asked today: lots past their use-by day are not offered in its place; heatId: what other heats that are primed or in the
 *   fire have placed from a lot is theirs
 * @throws {Problem} solder-lot-short, with other lots of the product that hold enough
 */
export function holdEnough(
  db: Db,
  lot: LotRow,
  { tenthMg, today, heatId }: { tenthMg: number; today: string; heatId?: string },
): void {
  const onHandTenthMg = onHandOf(db, lot.id);
  const placed = heatId === undefined ? new Map<string, number>() : placedByOtherHeats(db, heatId);
  const elsewhere = placed.get(lot.id) ?? 0;
  if (onHandTenthMg - elsewhere - tenthMg >= -SCALE_ERROR_TENTH_MG) return;
  const onHand = onHandByLot(db);
  const freeIn = (id: string) => (onHand.get(id) ?? 0) - (placed.get(id) ?? 0);
  const offers = lotsInDrawer(db)
    .filter(
      (other) =>
        other.productId === lot.productId && other.id !== lot.id && isUsable(other, today) && freeIn(other.id) >= tenthMg,
    )
    .map(({ id, number }) => ({ lotId: id, number, onHandG: toG(onHand.get(id) ?? 0) }));
  const holds = inGrams(onHandTenthMg);
  const inLot = elsewhere === 0 ? holds : `${holds}, of which ${inGrams(elsewhere)} are placed for other heats`;
  throw new Problem(
    'solder-lot-short',
    `Cannot take ${inGrams(tenthMg)} from lot ${lot.number}: it holds ${inLot}. Weigh the lot or take another`,
    { lotId: lot.id, shortTenthMg: tenthMg + elsewhere - onHandTenthMg, offers },
  );
}

function holdFreeOfCadmium(lot: LotRow, product: { name: string; cadmiumStanding: string }): void {
  if (lot.cadmiumStanding === 'no' && product.cadmiumStanding === 'no') return;
  const standing = lot.cadmiumStanding === 'no' ? product.cadmiumStanding : lot.cadmiumStanding;
  throw new Problem(
    'cadmium-blocks',
    `Cannot take lot ${lot.number} (${product.name}): cadmium ${standing === 'yes' ? 'is in it' : 'is unknown, and counts as yes'}`,
    { lotId: lot.id, cadmiumStanding: standing },
  );
}

function notUsable({ number, state, stateReason }: LotRow): string {
  const words = state.replaceAll('_', ' ');
  return stateReason === null
    ? `Cannot take lot ${number}: it is ${words}`
    : `Cannot take lot ${number}: it is ${words} (${stateReason})`;
}

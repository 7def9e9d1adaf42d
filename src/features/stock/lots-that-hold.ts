import type { Db } from '../../platform/db/client.ts';
import { metalLotsOldestFirst, metalOnHandByLot } from './metal-lots.store.ts';
import { lotsInDrawer, type LotRow } from './solder-lots.store.ts';
import { onHandOf } from './stock-movements.store.ts';

/** Less than that is a crumb: no lot is received with less. */
const LEAST_TENTH_MG = 100;
const OVER = new Set(['finished', 'written_off']);

/** Lots that there is something of, in the order they came in, with how much. */
export function lotsThatHold(db: Db): { lot: LotRow; onHandTenthMg: number }[] {
  return lotsInDrawer(db)
    .filter(({ state }) => !OVER.has(state))
    .map((lot) => ({ lot, onHandTenthMg: onHandOf(db, lot.id) }))
    .filter(({ onHandTenthMg }) => onHandTenthMg >= LEAST_TENTH_MG);
}

/** Metal of our own that there is something of, in the order it came in. */
export function metalLotsThatHold(db: Db) {
  const onHand = metalOnHandByLot(db);
  return metalLotsOldestFirst(db)
    .filter(({ lot }) => lot.commissionId === null)
    .map((one) => ({ ...one, onHandTenthMg: onHand.get(one.lot.id) ?? 0 }))
    .filter(({ onHandTenthMg }) => onHandTenthMg >= LEAST_TENTH_MG);
}

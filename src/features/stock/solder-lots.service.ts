import type { z } from 'zod';
import { onceEach } from '../../../shared/once-each.ts';
import { countDifference } from '../../../shared/stock/count-difference.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem } from '../../platform/http/problem.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { aheadErrors } from '../../platform/http/not-yet.ts';
import { pageOf } from '../../platform/http/paging.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { closedErrors } from './closed-books.ts';
import { toG, toTenthMg } from './grams.ts';
import { moveLot } from './lot-moves.ts';
import { moreThanCameIn } from './more-than-came-in.ts';
import { lotErrors, receiveLot } from './receive-lot.ts';
import type { BroughtLot, NewSolderLot, SolderLotMove, SolderLotQuery } from './solder-lots.schema.ts';
import * as store from './solder-lots.store.ts';
import { getProduct } from './solder-products.store.ts';
import { seesPrices, shownPrice, type Weighing } from './stock-fields.ts';
import { holdOpenToStock, showMovement } from './stock-movements.service.ts';
import { addMovement, onHandAt, onHandOf } from './stock-movements.store.ts';
import { lastCountOf, usedSince } from './stocktakes.store.ts';
import { trimOffer } from './trim-offer.ts';

export type SolderLotService = ReturnType<typeof createSolderLotService>;

export function createSolderLotService({ db, clock }: Platform) {
  return {
    /** Books a delivery: the lot and its first movement. What is unmarked or may hold cadmium is held back. */
    receive(actor: Actor, receipt: z.infer<typeof NewSolderLot>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const errors = lotErrors(tx, receipt, dateInZone(by.at, getSettings(tx).timeZone));
        holdFields(errors, actor.confirmed);
        return showLot(tx, actor, receiveLot(tx, { actor, by }, { receipt, orderLineId: null }));
      });
    },

    /** Brings in a lot that was there before the book. */
    bringIn(actor: Actor, { number, heldBackBecause, ...receipt }: z.infer<typeof BroughtLot>): void {
      db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        holdFields(lotErrors(tx, receipt, dateInZone(by.at, getSettings(tx).timeZone)), actor.confirmed);
        if (store.findLotByNumber(tx, number)) throw new Problem('already-used', `There is a lot ${number} already`);
        receiveLot(tx, { actor, by }, { receipt, orderLineId: null, number, heldBackBecause });
      });
    },

    get: (actor: Actor, id: string) => showLot(db, actor, store.getLot(db, id)),

    list(actor: Actor, query: z.infer<typeof SolderLotQuery>) {
      // Many lots of few products.
      const product = onceEach((id) => getProduct(db, id));
      return pageOf(store.listLots(db, query), query, (row) => showLot(db, actor, row, product(row.productId)));
    },

    move(actor: Actor, id: string, sent: z.infer<typeof SolderLotMove>) {
      return db.transaction((tx) => showLot(tx, actor, moveLot(tx, actor, { id, sent, now: clock.now() })));
    },

    /**
     * The scale is right and the book follows it.
     *
     * @param weighedAt when it lay on the scale, if that is told late: what was taken and came since is not weighed away
     */
    weigh(actor: Actor, id: string, { weighedG, reason }: z.infer<typeof Weighing>, weighedAt?: string) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const at = weighedAt === undefined ? by.at : new Date(weighedAt);
        const lot = store.getLot(tx, id);
        holdOpenToStock(lot);
        const weighedTenthMg = toTenthMg(weighedG);
        const untimely =
          weighedAt === undefined
            ? []
            : [...closedErrors(tx, '/occurredAt', { at, now: by.at }), ...aheadErrors('/occurredAt', weighedAt, by.at)];
        holdFields([...moreThanCameIn('/weighedG', lot, weighedTenthMg), ...untimely], actor.confirmed);
        const bookTenthMg = weighedAt === undefined ? onHandOf(tx, id) : onHandAt(tx, id, at);
        const difference = weighedTenthMg - bookTenthMg;
        const usedTenthMg = usedSince(tx, { lotId: id, of: 'solder' }, lastCountOf(tx, id));
        const against = countDifference({ bookG: toG(bookTenthMg), countedG: weighedG, usedG: toG(usedTenthMg) });
        const movement =
          difference === 0
            ? null
            : addMovement(tx, by, {
                kind: difference > 0 ? 'count_up' : 'count_down',
                productId: lot.productId,
                lotId: id,
                onHandTenthMg: difference,
                heldTenthMg: 0,
                reason,
                at,
              });
        return {
          movement: movement && showMovement(tx, movement),
          lot: showLot(tx, actor, lot),
          sinceLastCount: { usedG: toG(usedTenthMg), ...against },
          trim: trimOffer(getSettings(tx), getProduct(tx, lot.productId), { ...against, usedG: toG(usedTenthMg) }),
        };
      });
    },
  };
}

export function showLot(
  db: Db,
  actor: Actor,
  { unitCostPerG, receivedTenthMg, ...lot }: store.LotRow,
  product = getProduct(db, lot.productId),
) {
  return {
    ...lot,
    state: lot.state as z.infer<typeof SolderLotQuery>['state'] & string,
    productCode: product.code,
    productName: product.name,
    form: product.form,
    receivedG: toG(receivedTenthMg),
    onHandG: toG(onHandOf(db, lot.id)),
    ...(seesPrices(actor) ? { unitCost: shownPrice(unitCostPerG) } : {}),
    allowedMoves: allowedMoves('lot', actor, { state: lot.state }),
  };
}

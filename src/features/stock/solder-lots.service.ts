import type { z } from 'zod';
import { countDifference } from '../../../shared/stock/count-difference.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { worksHere, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { pageOf } from '../../platform/http/paging.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { toG, toTenthMg } from './grams.ts';
import { moveLot } from './lot-moves.ts';
import { lotErrors, receiveLot } from './receive-lot.ts';
import type { NewSolderLot, SolderLotMove, SolderLotQuery, Weighing } from './solder-lots.schema.ts';
import * as store from './solder-lots.store.ts';
import { getProduct } from './solder-products.store.ts';
import { seesPrices, shownPrice } from './stock-fields.ts';
import { holdOpenToStock, moreThanCameIn, showMovement } from './stock-movements.service.ts';
import { addMovement, onHandOf } from './stock-movements.store.ts';
import { lastCountOf, usedSince } from './stocktakes.store.ts';

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

    get: (actor: Actor, id: string) => showLot(db, actor, store.getLot(db, id)),

    list: (actor: Actor, query: z.infer<typeof SolderLotQuery>) =>
      pageOf(store.listLots(db, query), query, (row) => showLot(db, actor, row)),

    move(actor: Actor, id: string, sent: z.infer<typeof SolderLotMove>) {
      return db.transaction((tx) => showLot(tx, actor, moveLot(tx, actor, { id, sent, now: clock.now() })));
    },

    /** The scale is right and the book follows it. */
    weigh(actor: Actor, id: string, { weighedG, reason }: z.infer<typeof Weighing>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const lot = store.getLot(tx, id);
        holdOpenToStock(lot);
        const weighedTenthMg = toTenthMg(weighedG);
        holdFields(moreThanCameIn('/weighedG', lot, weighedTenthMg), actor.confirmed);
        const bookTenthMg = onHandOf(tx, id);
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
              });
        return {
          movement: movement && showMovement(tx, movement),
          lot: showLot(tx, actor, lot),
          sinceLastCount: { usedG: toG(usedTenthMg), ...against },
        };
      });
    },
  };
}

export function showLot(db: Db, actor: Actor, { unitCostPerG, receivedTenthMg, ...lot }: store.LotRow) {
  const product = getProduct(db, lot.productId);
  return {
    ...lot,
    state: lot.state as z.infer<typeof SolderLotQuery>['state'] & string,
    productCode: product.code,
    productName: product.name,
    form: product.form,
    receivedG: toG(receivedTenthMg),
    onHandG: toG(onHandOf(db, lot.id)),
    ...(seesPrices(actor) ? { unitCost: shownPrice(unitCostPerG) } : {}),
    // Students do not write stock, also not the move that anyone else may make.
    allowedMoves: worksHere(actor) ? allowedMoves('lot', actor, { state: lot.state }) : [],
  };
}

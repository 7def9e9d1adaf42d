import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money } from '../../platform/http/money.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId, nextNumber } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { bookDelivery } from './delivery.ts';
import { toG } from './grams.ts';
import { expectedDay, openOf } from './on-order.ts';
import { lineErrors, lineRows, type NewLine } from './order-lines.ts';
import { cameWorth, moveOrder, promiseErrors, totalOf } from './order-moves.ts';
import { showLot } from './solder-lots.service.ts';
import { seesPrices, shownPrice } from './stock-fields.ts';
import { worth } from './stock-value.ts';
import type {
  NewDelivery,
  NewSupplierOrder,
  SupplierOrderChange,
  SupplierOrderMove,
  SupplierOrderQuery,
} from './supplier-orders.schema.ts';
import * as store from './supplier-orders.store.ts';
import { findSupplier, getSupplier } from './suppliers.store.ts';

export type SupplierOrderService = ReturnType<typeof createSupplierOrderService>;

export function createSupplierOrderService({ db, clock }: Platform) {
  const today = (tx: Db): string => dateInZone(clock.now(), getSettings(tx).timeZone);

  return {
    /** Writes an order down; nothing is sent anywhere by it. */
    add(actor: Actor, { supplierId, lines }: z.infer<typeof NewSupplierOrder>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        if (!findSupplier(tx, supplierId))
          throw invalidFields([{ pointer: '/supplierId', detail: 'There is no such supplier.', given: supplierId }]);
        holdFields(lineErrors(tx, lines, today(tx)), actor.confirmed);
        const order = store.insertOrder(tx, {
          id: newId(by.at),
          number: `O${nextNumber(tx, 'supplier-order')}`,
          supplierId,
          state: 'to_order',
          createdAt: by.at.toISOString(),
        });
        putLines(tx, order, lines, by.at);
        writeJournal(tx, by, { what: 'supplier-order', id: order.id, after: { ...order, lines } });
        return show(tx, actor, order);
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, store.getOrder(db, id)),

    list: (actor: Actor, query: z.infer<typeof SupplierOrderQuery>) =>
      pageOf(store.listOrders(db, query), query, (row) => show(db, actor, row)),

    /** Its lines until it is sent, and its promise while something is to come. */
    change(actor: Actor, id: string, seen: number, { lines, promisedOn }: z.infer<typeof SupplierOrderChange>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const before = store.getOrder(tx, id);
        holdToVersion('supplier order', before.version, seen);
        if (lines && before.state !== 'to_order') cannotChange(before, 'its lines', 'it was sent');
        if (promisedOn !== undefined && before.state !== 'promised' && before.state !== 'part_in')
          cannotChange(before, 'its promise', 'a first promise is a move to promised');
        holdFields(
          [
            ...(lines ? lineErrors(tx, lines, today(tx)) : []),
            ...(promisedOn !== undefined && promisedOn !== before.promisedOn
              ? promiseErrors(promisedOn, before.sentOn ?? today(tx))
              : []),
          ],
          actor.confirmed,
        );
        if (lines) putLines(tx, before, lines, by.at);
        const after = store.updateOrder(tx, id, {
          version: before.version + 1,
          ...(promisedOn === undefined ? {} : { promisedOn }),
        });
        writeJournal(tx, by, { what: 'supplier-order', id, before, after: lines ? { ...after, lines } : after });
        return show(tx, actor, after);
      });
    },

    move(actor: Actor, id: string, sent: z.infer<typeof SupplierOrderMove>) {
      return db.transaction((tx) => show(tx, actor, moveOrder(tx, actor, { id, sent, now: clock.now() })));
    },

    /** Books what came: a lot for each line, and the order is in, or in part. */
    deliver(actor: Actor, id: string, delivery: z.infer<typeof NewDelivery>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const { order, lots, metalLotIds } = bookDelivery(tx, { actor, by }, { id, delivery, today: today(tx) });
        return { lots: lots.map((lot) => showLot(tx, actor, lot)), metalLotIds, order: show(tx, actor, order) };
      });
    },
  };
}

function putLines(tx: Db, order: store.OrderRow, lines: readonly NewLine[], at: Date): void {
  store.putLines(
    tx,
    order.id,
    lineRows(tx, lines).map((line, index) => ({ ...line, id: newId(at), orderId: order.id, position: index + 1 })),
  );
}

function cannotChange({ number }: store.OrderRow, what: string, why: string): never {
  throw new Problem('condition-not-met', `Cannot change ${what} in order ${number}: ${why}`);
}

function show(db: Db, actor: Actor, { invoiceMinor, ...row }: store.OrderRow) {
  const { currency } = getSettings(db);
  const supplier = getSupplier(db, row.supplierId);
  const lines = store.linesOf(db, row.id);
  const priced = seesPrices(actor);
  const total = totalOf(currency, lines);
  return {
    ...row,
    state: row.state as z.infer<typeof SupplierOrderQuery>['state'] & string,
    supplier: supplier.name,
    expectedOn: expectedDay(row, supplier.leadWorkingDays),
    lines: lines.map((line) => ({
      id: line.id,
      productId: line.productId,
      metalProductId: line.metalProductId,
      name: line.name,
      orderedG: toG(line.tenthMg),
      receivedG: toG(line.receivedTenthMg),
      openG: toG(openOf(line)),
      closedShort: line.closedShort,
      ...(priced
        ? { price: shownPrice(line.pricePerG), cost: worth(currency, [{ tenthMg: line.tenthMg, costPerG: line.pricePerG }]) }
        : {}),
    })),
    minimumMet: total.amountMinor >= supplier.minimumMinor,
    ...(priced
      ? {
          total,
          minimum: money(supplier.minimumMinor, currency),
          received: cameWorth(currency, lines),
          invoice: invoiceMinor === null ? null : money(invoiceMinor, currency),
        }
      : {}),
    allowedMoves: allowedMoves('supplier_order', actor, { state: row.state }),
  };
}

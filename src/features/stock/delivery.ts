import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor, WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { toTenthMg } from './grams.ts';
import { receiveMetal } from './metal-lots.service.ts';
import { getMetalProduct } from './metal-products.store.ts';
import { openOf } from './on-order.ts';
import { lotErrors, receiveLot } from './receive-lot.ts';
import type { LotRow } from './solder-lots.store.ts';
import { shownPrice, keptPricePerG } from './stock-fields.ts';
import type { NewDelivery } from './supplier-orders.schema.ts';
import * as store from './supplier-orders.store.ts';

type Delivery = z.infer<typeof NewDelivery>;
type Came = Delivery['lines'][number];

const TAKES_DELIVERIES: ReadonlySet<string> = new Set(['sent', 'promised', 'part_in']);

/** Books what came of an order: a lot for each line. With the last of it the order is in, before that in part. */
export function bookDelivery(
  tx: Db,
  who: { actor: Actor; by: WrittenBy },
  { id, delivery, today }: { id: string; delivery: Delivery; today: string },
): { order: store.OrderRow; lots: LotRow[]; metalLotIds: string[] } {
  const before = store.getOrder(tx, id);
  if (!TAKES_DELIVERIES.has(before.state)) {
    throw new Problem(
      'condition-not-met',
      `Cannot book a delivery of order ${before.number}: it is ${before.state.replaceAll('_', ' ')}`,
      {
        state: before.state,
      },
    );
  }
  const lines = new Map(store.linesOf(tx, id).map((line) => [line.id, line]));
  holdFields(deliveryErrors(tx, { delivery, lines, today }), who.actor.confirmed);
  const lots: LotRow[] = [];
  const metalLotIds: string[] = [];
  for (const came of delivery.lines) {
    const line = lines.get(came.lineId)!;
    if (line.productId === null) metalLotIds.push(bookMetal(tx, who.by, { line, came, receivedOn: delivery.receivedOn }));
    else lots.push(receiveLot(tx, who, { receipt: receiptOf(line, came, delivery.receivedOn), orderLineId: line.id }));
  }
  const isAllIn = store.linesOf(tx, id).every((line) => openOf(line) === 0);
  const order = store.updateOrder(tx, id, { state: isAllIn ? 'in' : 'part_in', version: before.version + 1 });
  writeJournal(tx, who.by, { what: 'supplier-order', id, before, after: order });
  return { order, lots, metalLotIds };
}

function deliveryErrors(
  db: Db,
  { delivery, lines, today }: { delivery: Delivery; lines: ReadonlyMap<string, store.OrderLine>; today: string },
): FieldError[] {
  return delivery.lines.flatMap((came, index): FieldError[] => {
    const pointer = `/lines/${index}`;
    const line = lines.get(came.lineId);
    if (!line) return [{ pointer: `${pointer}/lineId`, detail: 'This order has no such line.', given: came.lineId }];
    if (line.productId === null) return delivery.receivedOn > today ? [notYet(delivery.receivedOn)] : [];
    return lotErrors(db, receiptOf(line, came, delivery.receivedOn), today).map((error) => ({
      ...error,
      pointer: error.pointer === '/receivedOn' ? error.pointer : `${pointer}${error.pointer}`,
    }));
  });
}

function notYet(day: string): FieldError {
  return { pointer: '/receivedOn', detail: `A lot cannot arrive on ${day}: that has not come yet.`, given: day };
}

function receiptOf(line: store.OrderLine, { lineId: _lineId, unitCost, ...came }: Came, receivedOn: string) {
  return { ...came, receivedOn, productId: line.productId!, unitCost: unitCost ?? shownPrice(line.pricePerG) };
}

function bookMetal(
  tx: Db,
  by: WrittenBy,
  { line, came, receivedOn }: { line: store.OrderLine; came: Came; receivedOn: string },
): string {
  return receiveMetal(tx, by, {
    product: getMetalProduct(tx, line.metalProductId!),
    receivedOn,
    tenthMg: toTenthMg(came.quantityG),
    costPerG: came.unitCost ? keptPricePerG(came.unitCost) : line.pricePerG,
    commissionId: null,
    orderLineId: line.id,
    note: null,
  }).id;
}

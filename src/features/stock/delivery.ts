import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor, WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { arrivalErrors } from './field-errors.ts';
import { inGrams, toG, toTenthMg } from './grams.ts';
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
/** Suppliers weigh generously; what is further over what was ordered is asked about. */
const ASK_OVER_FRACTION = 0.1;

/** Books what came of an order: a lot for each line. With the last of it the order is in, before that in part. */
export function bookDelivery(
  tx: Db,
  who: { actor: Actor; by: WrittenBy },
  { id, delivery, today }: { id: string; delivery: Delivery; today: string },
): { order: store.OrderRow; lots: LotRow[]; metalLotIds: string[] } {
  const before = store.getOrder(tx, id);
  const ordered = store.linesOf(tx, id);
  // With a delivery that was booked wrongly and taken back, an order that is in waits for it again.
  const waitsAgain = before.state === 'in' && ordered.some((line) => openOf(line) > 0);
  if (!TAKES_DELIVERIES.has(before.state) && !waitsAgain) {
    throw new Problem(
      'condition-not-met',
      `Cannot book a delivery of order ${before.number}: it is ${before.state.replaceAll('_', ' ')}`,
      {
        state: before.state,
      },
    );
  }
  const lines = new Map(ordered.map((line) => [line.id, line]));
  holdFields(deliveryErrors(tx, { delivery, lines, today, sentOn: before.sentOn }), who.actor.confirmed);
  const lots: LotRow[] = [];
  const metalLotIds: string[] = [];
  for (const came of delivery.lines) {
    const line = lines.get(came.lineId)!;
    if (line.productId === null) metalLotIds.push(bookMetal(tx, who.by, { line, came, receivedOn: delivery.receivedOn }));
    else lots.push(receiveLot(tx, who, { receipt: receiptOf(line, came, delivery.receivedOn), orderLineId: line.id }));
  }
  const isAllIn = store.linesOf(tx, id).every((line) => openOf(line) === 0);
  const order = store.updateOrder(tx, id, {
    state: isAllIn || before.state === 'in' ? 'in' : 'part_in',
    version: before.version + 1,
  });
  writeJournal(tx, who.by, { what: 'supplier-order', id, before, after: order });
  return { order, lots, metalLotIds };
}

function deliveryErrors(
  db: Db,
  {
    delivery,
    lines,
    today,
    sentOn,
  }: { delivery: Delivery; lines: ReadonlyMap<string, store.OrderLine>; today: string; sentOn: string | null },
): FieldError[] {
  const { receivedOn } = delivery;
  const came = new Map<string, number>();
  return [
    ...(sentOn !== null && receivedOn < sentOn
      ? [
          {
            pointer: '/receivedOn',
            detail: `It cannot have come on ${receivedOn}: it was ordered on ${sentOn}.`,
            given: receivedOn,
          },
        ]
      : []),
    ...delivery.lines.flatMap((one, index): FieldError[] => {
      const pointer = `/lines/${index}`;
      const line = lines.get(one.lineId);
      if (!line) return [{ pointer: `${pointer}/lineId`, detail: 'This order has no such line.', given: one.lineId }];
      const before = line.receivedTenthMg + (came.get(line.id) ?? 0);
      came.set(line.id, (came.get(line.id) ?? 0) + toTenthMg(one.quantityG));
      const over = overErrors(`${pointer}/quantityG`, line, { before, tenthMg: toTenthMg(one.quantityG) });
      if (line.productId === null) return [...metalErrors(pointer, one), ...arrivalErrors(receivedOn, today), ...over];
      const errors = lotErrors(db, receiptOf(line, one, receivedOn), today).map((error) => ({
        ...error,
        pointer: error.pointer === '/receivedOn' ? error.pointer : `${pointer}${error.pointer}`,
      }));
      return [...errors, ...over];
    }),
  ];
}

function overErrors(
  pointer: string,
  line: store.OrderLine,
  { before, tenthMg }: { before: number; tenthMg: number },
): FieldError[] {
  const over = before + tenthMg - line.tenthMg;
  if (over <= ASK_OVER_FRACTION * line.tenthMg) return [];
  return [
    {
      pointer,
      detail: `${inGrams(line.tenthMg)} of ${line.name} were ordered and ${inGrams(before)} came before: this is ${inGrams(over)} over. Is it right?`,
      given: toG(tenthMg),
      unit: 'g',
      confirmable: true,
    },
  ];
}

/** What is noted of solder alone is refused of metal, so that nobody believes it was taken. */
function metalErrors(pointer: string, { markOnMetal, useBy, cadmiumStanding, document }: Came): FieldError[] {
  const given = { markOnMetal: markOnMetal ?? undefined, useBy: useBy ?? undefined, cadmiumStanding, document };
  return Object.entries(given).flatMap(([name, value]) =>
    value === undefined ? [] : [{ pointer: `${pointer}/${name}`, detail: 'This is noted of solder alone; leave it out.' }],
  );
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

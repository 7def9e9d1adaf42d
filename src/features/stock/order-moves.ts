import type { z } from 'zod';
import { findMove, type GuardOf } from '../../../shared/lifecycles/lifecycles.ts';
import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money, sayMoney } from '../../platform/http/money.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getSettings } from '../settings/index.ts';
import { toG } from './grams.ts';
import { openOf } from './on-order.ts';
import { worth } from './stock-value.ts';
import type { SupplierOrderMove } from './supplier-orders.schema.ts';
import * as store from './supplier-orders.store.ts';
import { holdToCurrency } from './suppliers.service.ts';
import { getSupplier } from './suppliers.store.ts';

type Sent = z.infer<typeof SupplierOrderMove>;

interface Asked {
  tx: Db;
  actor: Actor;
  row: store.OrderRow;
  lines: store.OrderLine[];
  sent: Sent;
  today: string;
  currency: string;
}

/** An invoice may differ from what came by the rounding of its lines. */
const INVOICE_TOLERANCE_MINOR = 5;
const PROMISE_MOST_DAYS = 365;
const PROMISE_ASK_DAYS = 60;

/** Moves an order along its life cycle, with what each move asks for and does. */
export function moveOrder(tx: Db, actor: Actor, { id, sent, now }: { id: string; sent: Sent; now: Date }): store.OrderRow {
  const row = store.getOrder(tx, id);
  holdToLifecycle('supplier_order', actor, { state: row.state, sent, now });
  const { timeZone, currency } = getSettings(tx);
  const today = dateInZone(new Date(sent.occurredAt), timeZone);
  const asked: Asked = { tx, actor, row, lines: store.linesOf(tx, id), sent, today, currency };
  holdNothingElseSent(sent);
  holdToCurrency(tx, { invoice: sent.invoice });
  const guard = findMove('supplier_order', row.state, sent.to)?.guard as GuardOf<'supplier_order'> | undefined;
  const missing = guard === undefined ? [] : GUARDS[guard](asked);
  if (missing.length > 0) {
    throw new Problem(
      'condition-not-met',
      `Cannot move order ${row.number} to ${sent.to.replaceAll('_', ' ')}: ${missing.join('; ')}`,
      {
        missing,
      },
    );
  }
  if (sent.promisedOn !== undefined) holdFields(promiseErrors(sent.promisedOn, row.sentOn ?? today), actor.confirmed);
  if (sent.to === 'in' && sent.closeShort)
    for (const line of asked.lines) if (openOf(line) > 0) store.closeLineShort(tx, line.id);
  const after = store.updateOrder(tx, id, {
    state: sent.to,
    stateReason: sent.reason ?? null,
    version: row.version + 1,
    ...(sent.to === 'sent' ? { sentOn: today } : {}),
    ...(sent.promisedOn === undefined ? {} : { promisedOn: sent.promisedOn }),
    ...(sent.invoice === undefined ? {} : { invoiceMinor: sent.invoice.amountMinor }),
  });
  writeJournal(tx, writtenBy(actor, now, sent.deviceId), { what: 'supplier-order', id, before: row, after });
  return after;
}

const GUARDS: Readonly<Record<GuardOf<'supplier_order'>, (asked: Asked) => string[]>> = {
  'minimum-met': ({ tx, actor, row, lines, sent, currency }) => {
    const supplier = getSupplier(tx, row.supplierId);
    const total = totalOf(currency, lines);
    if (total.amountMinor >= supplier.minimumMinor || (actor.roles.has('owner') && sent.reason !== undefined)) return [];
    return [
      `it comes to ${sayMoney(total)}, under the minimum of ${supplier.name}, ${sayMoney(money(supplier.minimumMinor, currency))}: add to it, or the owner sends it with a reason`,
    ];
  },
  'date-given': ({ sent }) => (sent.promisedOn === undefined ? ['say which day was promised (promisedOn)'] : []),
  'some-lots-received': ({ lines }) => nothingCame(lines),
  'all-lines-received': ({ lines, sent }) => [
    ...nothingCame(lines),
    ...(sent.closeShort
      ? []
      : lines
          .filter((line) => openOf(line) > 0)
          .map((line) => `${toG(openOf(line))} g of ${line.name} are still to come: book them, or close it short (closeShort)`)),
  ],
  'invoice-agrees': ({ lines, sent, currency }) => {
    if (sent.invoice === undefined) return ['say what the invoice asks for the goods (invoice)'];
    const came = cameWorth(currency, lines);
    const off = Math.abs(sent.invoice.amountMinor - came.amountMinor);
    if (off <= INVOICE_TOLERANCE_MINOR || sent.reason !== undefined) return [];
    return [
      `the invoice asks ${sayMoney(sent.invoice)}, what came is ${sayMoney(came)}: explain the difference of ${sayMoney(money(off, currency))} (reason)`,
    ];
  },
  'rest-not-wanted': ({ sent }) => (sent.reason === undefined ? ['say why the rest is not wanted (reason)'] : []),
};

/** What was ordered, at its prices. */
export function totalOf(currency: string, lines: readonly store.OrderLineRow[]) {
  const perLine = lines.map(({ tenthMg, pricePerG }) => worth(currency, [{ tenthMg, costPerG: pricePerG }]).amountMinor);
  return money(
    perLine.reduce((total, amount) => total + amount, 0),
    currency,
  );
}

/** What came, at what was paid for it. */
export function cameWorth(currency: string, lines: readonly store.OrderLine[]) {
  return worth(
    currency,
    lines.flatMap(({ lots }) => lots),
  );
}

/** A day before the order, or more than a year after it, is no promise; over two months is asked about. */
export function promiseErrors(promisedOn: string, orderedOn: string): FieldError[] {
  const pointer = '/promisedOn';
  if (promisedOn < orderedOn)
    return [{ pointer, detail: `Promised for ${promisedOn}, before it was ordered on ${orderedOn}.`, given: promisedOn }];
  if (promisedOn > addDays(orderedOn, PROMISE_MOST_DAYS))
    return [{ pointer, detail: `${promisedOn} is more than a year after the order.`, given: promisedOn }];
  if (promisedOn <= addDays(orderedOn, PROMISE_ASK_DAYS)) return [];
  return [
    {
      pointer,
      detail: `${promisedOn} is more than ${PROMISE_ASK_DAYS} days after the order.`,
      given: promisedOn,
      confirmable: true,
    },
  ];
}

function nothingCame(lines: readonly store.OrderLine[]): string[] {
  return lines.some(({ receivedTenthMg }) => receivedTenthMg > 0)
    ? []
    : ['nothing of it has come: book what came first (POST deliveries)'];
}

/** What belongs to another move is refused, so that nobody believes it was taken. */
function holdNothingElseSent({ to, promisedOn, closeShort, invoice }: Sent): void {
  holdFields(
    [
      ...(promisedOn !== undefined && to !== 'promised' ? onlyWith('promisedOn', 'promised') : []),
      ...(closeShort !== undefined && to !== 'in' ? onlyWith('closeShort', 'in') : []),
      ...(invoice !== undefined && to !== 'squared' ? onlyWith('invoice', 'squared') : []),
    ],
    null,
  );
}

function onlyWith(name: string, state: string): FieldError[] {
  return [{ pointer: `/${name}`, detail: `This is taken only with the move to ${state}.` }];
}

import { Decimal, sum } from '../decimal.ts';
import { addToPool, costOf, takeAtAverage, type CostLayer, type CostPool } from './issue-costs.ts';
import { oldestFirstLayers } from './oldest-first-layers.ts';

export type CostMethod = 'oldest_first' | 'average';

/** One line of the ledger of a product, in the order it was written. */
export interface StockEvent {
  id: string;
  /** What it did to what is on hand: negative out of it. */
  tenthMg: number;
  /** Of a delivery alone: its lot, what a gram of it cost, and the day it came (ISO 8601); without one it is the newest. */
  delivery?: { lot: string; costPerG: string; receivedOn?: string };
  /** The line it takes back. */
  reverses?: string;
}

export interface CostLedger {
  /** What each line cost the stock, money to six places: an issue above nothing, what comes back below it; a delivery is 0, save where it has to bear what was written down before it. */
  costs: Map<string, string>;
  tenthMg: number;
  /** What is left on hand is worth. Deliveries paid for, less all costs, are exactly this. */
  value: string;
  /** The deliveries that what is left is valued at; for the average, one at the average. */
  layers: CostLayer[];
  /** From where what is written later goes on. */
  state: CostState;
}

/** A ledger as it stood after some line of it, as JSON keeps it. */
export interface CostState {
  deliveries: Delivery[];
  tenthMg: number;
  value: string;
  /** At the average alone: what a gram cost when there was last some. */
  average: string;
}

/** Where to go on from, and what the lines before that cost; without it from the beginning. */
export interface CostsBefore {
  state: CostState;
  costOf: (id: string) => string | undefined;
}

const PLACES = 6;
const LAST_DAY = '9999-12-31';

export interface Delivery extends CostLayer {
  id: string;
  receivedOn: string;
}

/**
 * What every issue of a product cost and what is left is worth, oldest first or at the running average.
 *
 * Oldest first is a rule of money: whichever lot the bench took, an issue costs what the grams that have been longest on the
 * books cost, and what comes back goes back to where it was taken. At the average an issue costs value ÷ grams as they then
 * were; what is reversed comes back at what it had cost, anything else at the average. Below nothing, by the error of a scale,
 * stock is worth nothing, and the next delivery bears the difference.
 *
 * @param before as an earlier call left it: a ledger that only grows need not be gone through again
 * @throws {EngineInputError} for a quantity that is no whole number
 * @source IAS 2, Inventories, paragraphs 25 and 27
 */
export function costLedger(events: readonly StockEvent[], method: CostMethod, before: CostsBefore = NOTHING): CostLedger {
  return method === 'average' ? atAverage(events, before) : oldestFirst(events, before);
}

const NOTHING: CostsBefore = { state: { deliveries: [], tenthMg: 0, value: '0', average: '0' }, costOf: () => undefined };

function oldestFirst(events: readonly StockEvent[], { state }: CostsBefore): CostLedger {
  const costs = new Map<string, string>();
  const deliveries = state.deliveries.map((delivery) => ({ ...delivery }));
  let { tenthMg } = state;
  let value = new Decimal(state.value);
  for (const event of events) {
    tenthMg += event.tenthMg;
    const paid = deliver(deliveries, event);
    const now = valueOf(layersOf(deliveries, tenthMg));
    costs.set(event.id, value.plus(paid).minus(now).toFixed(PLACES));
    value = now;
  }
  return {
    costs,
    tenthMg,
    value: value.toFixed(PLACES),
    layers: layersOf(deliveries, tenthMg),
    state: { deliveries, tenthMg, value: value.toFixed(PLACES), average: '0' },
  };
}

/** Notes a delivery, or takes one back, and tells what was paid with it. */
function deliver(deliveries: Delivery[], { id, tenthMg, delivery, reverses }: StockEvent): Decimal {
  const takenBack = deliveries.find((one) => one.id === reverses);
  if (takenBack) {
    const paid = costOf(takenBack.tenthMg, takenBack.costPerG);
    takenBack.tenthMg = 0;
    return paid.negated();
  }
  if (!delivery) return new Decimal(0);
  const { receivedOn = LAST_DAY } = delivery;
  const later = deliveries.findIndex((one) => one.receivedOn > receivedOn);
  deliveries.splice(later === -1 ? deliveries.length : later, 0, { ...delivery, id, tenthMg, receivedOn });
  return costOf(tenthMg, delivery.costPerG);
}

function layersOf(deliveries: readonly Delivery[], tenthMg: number): CostLayer[] {
  return oldestFirstLayers(deliveries, tenthMg).map(({ lot, costPerG, tenthMg: left }) => ({ lot, tenthMg: left, costPerG }));
}

function valueOf(layers: readonly CostLayer[]): Decimal {
  return sum(layers.map(({ tenthMg, costPerG }) => costOf(tenthMg, costPerG)));
}

function atAverage(events: readonly StockEvent[], { state, costOf: costBefore }: CostsBefore): CostLedger {
  const costs = new Map<string, string>();
  const deliveries = state.deliveries.map((delivery) => ({ ...delivery }));
  let pool: CostPool = { tenthMg: state.tenthMg, value: state.value };
  let average = new Decimal(state.average);
  const costOfLine = (id: string) => costs.get(id) ?? costBefore(id);
  for (const event of events) {
    const before = new Decimal(pool.value);
    const paid = deliver(deliveries, event);
    pool = paid.isZero() && !event.delivery ? moved(pool, event, { average, costOfLine }) : delivered(pool, event, paid);
    if (pool.tenthMg > 0) average = new Decimal(pool.value).times(10_000).div(pool.tenthMg);
    costs.set(event.id, before.plus(paid).minus(pool.value).toFixed(PLACES));
  }
  const layers =
    pool.tenthMg > 0 ? [{ lot: 'average', tenthMg: pool.tenthMg, costPerG: average.toDecimalPlaces(PLACES).toFixed() }] : [];
  return {
    costs,
    tenthMg: pool.tenthMg,
    value: new Decimal(pool.value).toFixed(PLACES),
    layers,
    state: { ...pool, deliveries, average: average.toString() },
  };
}

/** A delivery in or out: below nothing, only what rises above it is worth something. */
function delivered(pool: CostPool, { tenthMg, delivery }: StockEvent, paid: Decimal): CostPool {
  if (delivery && pool.tenthMg >= 0) return addToPool(pool, { tenthMg, costPerG: delivery.costPerG });
  const after = pool.tenthMg + tenthMg;
  const worth = delivery ? costOf(Math.max(0, after), delivery.costPerG) : Decimal.max(0, new Decimal(pool.value).plus(paid));
  return { tenthMg: after, value: (after > 0 ? worth : new Decimal(0)).toFixed(PLACES) };
}

function moved(
  pool: CostPool,
  { tenthMg, reverses }: StockEvent,
  { average, costOfLine }: { average: Decimal; costOfLine: (id: string) => string | undefined },
): CostPool {
  const after = pool.tenthMg + tenthMg;
  if (after <= 0) return { tenthMg: after, value: '0' };
  if (tenthMg <= 0 && reverses === undefined) return takeAtAverage(pool, -tenthMg).pool;
  const cost = reverses === undefined ? undefined : costOfLine(reverses);
  const back = cost === undefined ? average.times(tenthMg).div(10_000) : new Decimal(cost);
  return { tenthMg: after, value: Decimal.max(0, new Decimal(pool.value).plus(back)).toFixed(PLACES) };
}

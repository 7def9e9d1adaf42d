import { Decimal } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';

/** What is left of one delivery. Stock is counted in tenths of a milligram. */
export interface CostLayer {
  lot: string;
  tenthMg: number;
  /** Money a gram, a decimal. */
  costPerG: string;
}

export interface OldestFirst {
  /** Money, to six places. */
  cost: string;
  taken: { lot: string; tenthMg: number; cost: string }[];
  /** What is left, oldest first. */
  layers: CostLayer[];
  /** What no layer covered, and no cost: a scale may say that a little more was there. */
  shortTenthMg: number;
}

/** All of a product together: how much, and what was paid for it. */
export interface CostPool {
  tenthMg: number;
  /** Money, to six places. */
  value: string;
}

// The ledger keeps six places; reports round.
const PLACES = 6;

/**
 * What an issue costs when the oldest delivery is used up first.
 *
 * @param layers oldest first; they are not changed
 * @param tenthMg how much is taken, a whole number, 0 or more
 * @throws {EngineInputError} for a quantity that is no such number
 * @source IAS 2, Inventories, paragraph 27 (first-in, first-out)
 */
export function takeOldestFirst(layers: readonly CostLayer[], tenthMg: number): OldestFirst {
  mustBeWhole('tenthMg', tenthMg);
  let wanted = tenthMg;
  const taken: OldestFirst['taken'] = [];
  const left: CostLayer[] = [];
  for (const layer of layers) {
    mustBeWhole(`${layer.lot}.tenthMg`, layer.tenthMg);
    const from = Math.min(wanted, layer.tenthMg);
    wanted -= from;
    if (from > 0) taken.push({ lot: layer.lot, tenthMg: from, cost: costOf(from, layer.costPerG).toFixed(PLACES) });
    if (from < layer.tenthMg) left.push({ ...layer, tenthMg: layer.tenthMg - from });
  }
  const cost = taken.reduce((total, part) => total.plus(part.cost), new Decimal(0));
  return { cost: cost.toFixed(PLACES), taken, layers: left, shortTenthMg: wanted };
}

/**
 * A pool after a delivery came in: weights and values add up.
 *
 * @throws {EngineInputError} for a quantity that is no whole number from 0
 * @source IAS 2, Inventories, paragraph 27 (weighted average, at each delivery)
 */
export function addToPool(pool: CostPool, delivery: { tenthMg: number; costPerG: string }): CostPool {
  mustBeWhole('tenthMg', delivery.tenthMg);
  return {
    tenthMg: pool.tenthMg + delivery.tenthMg,
    value: new Decimal(pool.value).plus(costOf(delivery.tenthMg, delivery.costPerG)).toFixed(PLACES),
  };
}

/**
 * What an issue costs at the average of all that is there, and the pool that is left: its last grain takes the last of its value.
 *
 * @throws {EngineInputError} for a quantity that is no whole number from 0, or more than the pool holds
 * @source IAS 2, Inventories, paragraph 27 (weighted average)
 */
export function takeAtAverage(pool: CostPool, tenthMg: number): { cost: string; pool: CostPool } {
  mustBeWhole('tenthMg', tenthMg);
  if (tenthMg > pool.tenthMg) throw new EngineInputError('tenthMg', tenthMg, `at most what there is, ${pool.tenthMg}`);
  const value = new Decimal(pool.value);
  const cost = tenthMg === 0 ? new Decimal(0) : value.times(tenthMg).div(pool.tenthMg).toDecimalPlaces(PLACES);
  return {
    cost: cost.toFixed(PLACES),
    pool: { tenthMg: pool.tenthMg - tenthMg, value: value.minus(cost).toFixed(PLACES) },
  };
}

/** What grams cost at a unit cost, to the six places of the ledger. */
export function costOf(tenthMg: number, costPerG: string): Decimal {
  return new Decimal(costPerG).times(tenthMg).div(10_000).toDecimalPlaces(PLACES);
}

function mustBeWhole(quantity: string, given: number): void {
  if (!(Number.isSafeInteger(given) && given >= 0)) throw new EngineInputError(quantity, given, 'a whole number, 0 or more');
}

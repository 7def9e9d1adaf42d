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

function costOf(tenthMg: number, costPerG: string): Decimal {
  return new Decimal(costPerG).times(tenthMg).div(10_000).toDecimalPlaces(PLACES);
}

function mustBeWhole(quantity: string, given: number): void {
  if (!(Number.isSafeInteger(given) && given >= 0)) throw new EngineInputError(quantity, given, 'a whole number, 0 or more');
}

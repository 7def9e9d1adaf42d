import { EngineInputError } from '../engine-input-error.ts';

export interface OrderQuantity {
  /** The cheapest order, were it bought for ever; Infinity where keeping it costs nothing. */
  economicG: number;
  /** What is used within the horizon. */
  capG: number;
  /** The smaller of the two, in whole packs, one at least. */
  orderG: number;
}

const WEEKS_PER_YEAR = 52;

/** What no supplier sells less than. Of packs far smaller, an order would be more than can be counted. */
export const LEAST_PACK_G = 0.001;

/**
 * How much to order at once: √(2 · D · S / H), but no more than is used within the horizon, up to whole packs.
 *
 * @param terms use a week; cost of one order; price of a gram; share of its price that keeping a gram for a year costs;
 *   weeks that an order may last; grams of a pack, a milligram or more
 * @throws {EngineInputError} for a negative number, or a pack so small that no number counts them
 * @source Harris (1913), the economic order quantity; Heizer & Render, Operations Management, inventory chapter
 */
export function orderQuantity(terms: {
  rateGPerWeek: number;
  orderCostMinor: number;
  priceMinorPerG: number;
  holdingFraction: number;
  horizonWeeks: number;
  packG: number;
}): OrderQuantity {
  const { rateGPerWeek, orderCostMinor, priceMinorPerG, holdingFraction, horizonWeeks, packG } = terms;
  const quantities = { rateGPerWeek, orderCostMinor, priceMinorPerG, holdingFraction, horizonWeeks, packG };
  for (const [quantity, given] of Object.entries(quantities)) {
    if (!(given >= 0 && given < Infinity)) throw new EngineInputError(quantity, given, '0 or more');
  }
  const ordering = 2 * rateGPerWeek * WEEKS_PER_YEAR * orderCostMinor;
  const economicG = ordering === 0 ? 0 : Math.sqrt(ordering / (holdingFraction * priceMinorPerG));
  const capG = rateGPerWeek * horizonWeeks;
  // A hair less, so that 25 g of 5 g packs are not six packs for the last bit of a double.
  const packs = Math.ceil((Math.min(economicG, capG) / packG) * (1 - 1e-12));
  const orderG = Math.max(1, packs) * packG;
  if (!(orderG > 0 && orderG < Infinity)) throw new EngineInputError('packG', packG, '0.001 or more');
  return { economicG, capG, orderG };
}

import { Decimal } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';

/**
 * The markup that a margin is: m/(1 − m). A margin of 40 % of the price is a markup of 66.7 % on the cost.
 *
 * @param marginFraction share of the price, below 1
 * @throws {EngineInputError} for a margin of 1 or more: nothing would be left for the cost
 * @source price = cost/(1 − margin) = cost · (1 + markup)
 */
export function markupOf(marginFraction: number): number {
  if (!(marginFraction < 1 && marginFraction > -Infinity))
    throw new EngineInputError('marginFraction', marginFraction, 'below 1: it is a share of the price');
  return new Decimal(marginFraction).div(new Decimal(1).minus(marginFraction)).toNumber();
}

/**
 * The margin that a markup is: u/(1 + u). A markup of 40 % on the cost is a margin of 28.6 % of the price.
 *
 * @param markupFraction share of the cost, above −1
 * @throws {EngineInputError} for a markup of −1 or less: the price would be nothing
 * @source price = cost/(1 − margin) = cost · (1 + markup)
 */
export function marginOf(markupFraction: number): number {
  if (!(markupFraction > -1 && markupFraction < Infinity))
    throw new EngineInputError('markupFraction', markupFraction, 'above -1: it is a share of the cost');
  return new Decimal(markupFraction).div(new Decimal(1).plus(markupFraction)).toNumber();
}

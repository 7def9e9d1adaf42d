import { Decimal, sum } from '../../../shared/decimal.ts';
import { money, toMinor, type Money } from '../../platform/http/money.ts';
import { toG } from './grams.ts';

/** What grams at their costs are worth: exact until the last step, then half-up to the minor unit. */
export function worth(currency: string, layers: readonly { tenthMg: number; costPerG: string }[]): Money {
  const exact = sum(layers.map(({ tenthMg, costPerG }) => new Decimal(toG(tenthMg)).times(costPerG)));
  return money(toMinor(exact, currency), currency);
}

/** An amount of six places, rounded once. */
export function inMoney(currency: string, amount: string): Money {
  return money(toMinor(new Decimal(amount), currency), currency);
}

import { Decimal as Base } from 'decimal.js';

/** Exact decimal arithmetic for money and what it is made of: 40 significant digits, halves away from zero. */
export const Decimal = Base.clone({ precision: 40, rounding: Base.ROUND_HALF_UP });
export type Decimal = Base;

export const ZERO: Decimal = new Decimal(0);
export const PI: Decimal = Decimal.acos(-1);

export function sum(values: Iterable<Decimal>): Decimal {
  let total = ZERO;
  for (const value of values) total = total.plus(value);
  return total;
}

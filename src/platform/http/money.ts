import { Decimal } from 'decimal.js';
import { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';

/** Whole minor units of a currency (ISO 4217). */
export const Money = z
  .object({ amountMinor: z.number().int(), currency: z.string() })
  .register(z.globalRegistry, { id: 'Money' });

export type Money = z.infer<typeof Money>;

/** Money as a request gives it, with the fences of the field on its amount. */
export function moneyGiven<Amount extends z.ZodType<number>>(amountMinor: Amount) {
  return z.strictObject({
    amountMinor,
    currency: z.string().regex(/^[A-Z]{3}$/, 'Use an ISO 4217 code, such as EUR.'),
  });
}

export function money(amountMinor: number, currency: string): Money {
  return { amountMinor, currency };
}

/** An exact amount in whole minor units, halves away from zero. */
export function toMinor(amount: Decimal, currency: string): number {
  return (
    amount
      .times(10 ** minorDigits(currency))
      .toDecimalPlaces(0, Decimal.ROUND_HALF_UP)
      .toNumber() + 0
  );
}

/** "222.18 EUR", for a sentence. */
export function sayMoney({ amountMinor, currency }: Money): string {
  const digits = minorDigits(currency);
  return `${new Decimal(amountMinor).div(Decimal.pow(10, digits)).toFixed(digits)} ${currency}`;
}

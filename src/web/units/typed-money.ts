import { minorDigits } from '../../../shared/costing/currency.ts';
import { inField } from './typed-number.ts';
import { readNumber } from './typed-quantity.ts';

/** Money as it was typed, in whole minor units; what cannot be read is sent as nothing, which the server refuses at its field. */
export function moneyTyped(text: string, currency: string): { amountMinor: number; currency: string } {
  const number = readNumber(text.trim());
  const amountMinor = typeof number === 'number' ? Number((number * 10 ** minorDigits(currency)).toFixed(4)) : NaN;
  return { amountMinor, currency };
}

/** For a field, without its currency. */
export function moneyInField(locale: string, { amountMinor, currency }: { amountMinor: number; currency: string }): string {
  const digits = minorDigits(currency);
  return inField((amountMinor / 10 ** digits).toFixed(digits), locale);
}

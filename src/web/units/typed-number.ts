import { readNumber } from './typed-quantity.ts';

/** A typed number; undefined for an empty field, and as it was typed for what is none, for the server to say so. */
export function numberOf(typed: string): number | undefined {
  if (typed.trim() === '') return undefined;
  const read = readNumber(typed.trim());
  return typeof read === 'number' ? read : (typed as never);
}

/** A share typed in hundredths or thousandths, as a fraction of one. */
export function shareOf(typed: string, ofWhole: 100 | 1000): number | undefined {
  const number = numberOf(typed);
  return typeof number === 'number' ? Number((number / ofWhole).toFixed(6)) : number;
}

/** A decimal as the server takes it, to as many places as were typed; what is no number goes as it was typed. */
export function decimalOf(typed: string): string {
  const read = numberOf(typed);
  if (typeof read !== 'number') return typed;
  return /^\d+[.,]\d+$/.test(typed.trim()) ? typed.trim().replace(',', '.') : String(read);
}

/**
 * A number as it stands in a field, with the sign of the reader's language, and so that it is read back as itself:
 * "1,234" could be two numbers, "1,2340" is one.
 *
 * @param plain as it is written with a point, ungrouped
 */
export function inField(plain: string, locale: string): string {
  if (new Intl.NumberFormat(locale).format(1.5) !== '1,5') return plain;
  const written = plain.replace('.', ',');
  const read = readNumber(written);
  return typeof read !== 'number' && read.outcome === 'ambiguous' ? `${written}0` : written;
}

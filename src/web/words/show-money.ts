import { minorDigits } from '../../../shared/costing/currency.ts';

export function showMoney(locale: string, amountMinor: number, currency: string): string {
  // The book counts by ISO 4217; Intl has its own digits, such as none for HUF.
  const digits = minorDigits(currency);
  return new Intl.NumberFormat(locale, {
    style: 'currency',
    currency,
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
  }).format(amountMinor / 10 ** digits);
}

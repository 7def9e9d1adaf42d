import type { MassUnit } from '../../units/mass-unit.ts';
import type { Words } from '../../words/words.ts';

interface UnitPrice {
  amount: string;
  per: MassUnit;
}

/** A price for a weight in words, to as many places as it has. */
export function sayPrice({ locale, say }: Words, { amount, per }: UnitPrice, currency: string): string {
  const style = new Intl.NumberFormat(locale, { style: 'currency', currency, maximumFractionDigits: 6 });
  return say('lot.per', { price: style.format(Number(amount)), unit: say(`mass.${per}`) });
}

import { minorDigits } from '../../../../shared/costing/currency.ts';
import { useMetalNames } from '../../ui/use-metal-names.ts';
import { useWords, type Words } from '../../words/words.ts';
import type { Step } from './why-steps.ts';

/** Names a line of what it costs: what it is, and of which metal, solder or hands. */
export function useLineWords(): (line: { group: string; label: string }) => string {
  const { named } = useWords();
  const nameOf = useMetalNames();
  return ({ group, label }) => {
    const word = named('price.group', group);
    const id = label.replace(/^(metal|scrap credit|solder|labour) /, '');
    if (id === label) return label === 'oxygen' ? named('price.group', 'oxygen') : word;
    return `${word}, ${group === 'labour' ? named('price.role', id) : nameOf(id)}`;
  };
}

/** Keys that are said whole; of the others the last part says what, and what is before it of which. */
const WHOLE = /^(making|net|gross|check|flux|pickle|gas|piece)\.|^(deposit|balance|tax\.total|labour\.minutes)$/;

/** Names a step of the working. */
export function sayStep({ named }: Words, key: string): string {
  if (WHOLE.test(key)) return named('price.step', key);
  const [first = '', ...rest] = key.split('.');
  if (first === 'price_per_g' || first === 'tax') return `${rest.join('.')}: ${named('price.step', first)}`;
  const of = rest.slice(0, -1).join('.');
  return `${first === 'labour' ? named(of === 'bench' ? 'price.role' : 'operation', of) : of}: ${named('price.step', rest.at(-1) ?? first)}`;
}

const UNITS: Readonly<Record<string, string>> = { mm3: 'mm³', cm2: 'cm²', g: 'g', s: 's', min: 'min' };

/** A value of the working with its unit; money that keeps its decimals shows them. */
export function sayValue({ locale, money }: Words, { value, unit }: Step, currency: string): string {
  const figures = (number: number) => new Intl.NumberFormat(locale, { maximumSignificantDigits: 6 }).format(number);
  if (unit === 'money' && typeof value === 'string') {
    const digits = minorDigits(currency);
    return money(Math.round(Number(value) * 10 ** digits), currency);
  }
  if (unit === 'money') return `${figures(Number(value))} ${currency}`;
  if (unit === 'money/g') return `${figures(Number(value))} ${currency}/g`;
  return `${figures(Number(value))} ${UNITS[unit] ?? ''}`.trim();
}

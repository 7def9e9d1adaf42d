import type { Gauge } from './gauge.ts';

export type ReadQuantity =
  /** unit: a code that convertUnit() knows; absent when none was written. */
  | { outcome: 'read'; value: number; unit?: string }
  /** One comma or point before three digits, not the mark of this language: it may be either. */
  | { outcome: 'unclear'; readings: [number, number] }
  | { outcome: 'unreadable' };

// An ounce alone is not here: at the bench it may be troy or not.
const UNIT_WORDS: Readonly<Record<string, string>> = {
  mm: 'mm',
  cm: 'cm',
  m: 'm',
  in: '[in_i]',
  '"': '[in_i]',
  '″': '[in_i]',
  g: 'g',
  mg: 'mg',
  kg: 'kg',
  gr: '[gr]',
  dwt: '[pwt_tr]',
  ozt: '[oz_tr]',
  'oz t': '[oz_tr]',
  ct: '[car_m]',
  c: 'Cel',
  '°c': 'Cel',
  f: '[degF]',
  '°f': '[degF]',
  k: 'K',
  s: 's',
  min: 'min',
  h: 'h',
  '%': '%',
  '‰': '[ppth]',
  awg: 'awg',
  'b&s': 'awg',
  swg: 'swg',
};
const GAUGE_WORDS = new Set(['ga', 'gauge']);

/**
 * A number with or without a unit, as a person types it: "1.2dwt", "18 ga", "1300 °F", "0,5".
 *
 * The language's own decimal mark is taken at its word; the other one is read as a decimal too, unless exactly three digits
 * follow, which may be thousands: then both readings are given and neither is assumed.
 *
 * @param text any text; spaces about it do not matter
 * @param options decimalMark of the language; gauge, what "ga" stands for in this studio
 */
export function readQuantity(text: string, { decimalMark, gauge }: { decimalMark: '.' | ','; gauge: Gauge }): ReadQuantity {
  const found = /^([+-]?[\d.,]+)\s*(\D*)$/.exec(text.trim());
  if (!found) return { outcome: 'unreadable' };
  const [, digits = '', word = ''] = found;
  const readings = readNumber(digits, decimalMark);
  if (readings.length === 2) return { outcome: 'unclear', readings: [readings[0]!, readings[1]!] };
  const [value] = readings;
  if (value === undefined) return { outcome: 'unreadable' };
  if (word === '') return { outcome: 'read', value };
  const name = word.toLowerCase().trim();
  const unit = GAUGE_WORDS.has(name) ? gauge : Object.hasOwn(UNIT_WORDS, name) ? UNIT_WORDS[name] : undefined;
  return unit === undefined ? { outcome: 'unreadable' } : { outcome: 'read', value, unit };
}

/** No reading, one, or two. */
function readNumber(digits: string, decimalMark: '.' | ','): number[] {
  const otherMark = decimalMark === '.' ? ',' : '.';
  if (/^[+-]?\d+$/.test(digits)) return [number(digits)];
  // Thousands in the way of the language, with or without decimals: 1,234,567 or 1,234.5
  const grouped = digits.split(decimalMark);
  if (
    grouped.length === 2 &&
    /^[+-]?\d{1,3}([.,]\d{3})+$/.test(grouped[0]!) &&
    !grouped[0]!.includes(decimalMark) &&
    /^\d+$/.test(grouped[1]!)
  ) {
    return [number(`${grouped[0]!.replaceAll(otherMark, '')}.${grouped[1]!}`)];
  }
  if (grouped.length === 1 && /^[+-]?\d{1,3}([.,]\d{3}){2,}$/.test(digits)) return [number(digits.replaceAll(otherMark, ''))];
  const decimal = /^([+-]?\d*)[.,](\d+)$/.exec(digits);
  if (!decimal) return [];
  const [, whole = '', rest = ''] = decimal;
  const value = number(`${whole}.${rest}`);
  const mayBeThousands = digits.includes(otherMark) && rest.length === 3 && /^[+-]?[1-9]\d{0,2}$/.test(whole);
  return mayBeThousands ? [value, number(whole + rest)] : [value];
}

/** Adding 0 turns a typed "-0" into zero. */
function number(digits: string): number {
  return Number(digits) + 0;
}

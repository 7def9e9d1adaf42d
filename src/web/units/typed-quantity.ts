import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { convertUnit } from '../../../shared/units/convert-unit.ts';

export type Quantity = 'length' | 'temperature' | 'mass';

/** What people write for a unit, in lower case, and its UCUM code or gauge. */
const WRITTEN: Readonly<Record<Quantity, Readonly<Record<string, string>>>> = {
  length: {
    mm: 'mm',
    cm: 'cm',
    m: 'm',
    in: '[in_i]',
    inch: '[in_i]',
    '"': '[in_i]',
    '″': '[in_i]',
    zoll: '[in_i]',
    ga: 'awg',
    gauge: 'awg',
    awg: 'awg',
    'b&s': 'awg',
    swg: 'swg',
  },
  temperature: { c: 'Cel', '°c': 'Cel', f: '[degF]', '°f': '[degF]', k: 'K' },
  mass: {
    g: 'g',
    mg: 'mg',
    kg: 'kg',
    dwt: '[pwt_tr]',
    ozt: '[oz_tr]',
    'oz t': '[oz_tr]',
    gr: '[gr]',
    ct: '[car_m]',
  },
};

const STORED: Readonly<Record<Quantity, string>> = { length: 'mm', temperature: 'Cel', mass: 'g' };

export type Typed =
  | { outcome: 'empty' }
  | { outcome: 'value'; value: number; entered: string | null }
  /** "1,234" is a thousand to some and a bit over one to others. */
  | { outcome: 'ambiguous'; readings: [number, number] }
  | { outcome: 'unknown_unit'; unit: string; known: string[] }
  | { outcome: 'outside'; detail: string }
  | { outcome: 'not_a_number' };

/**
 * What somebody typed, in the one unit the book keeps (mm, °C, g): "18 ga", "1300F", "0,8", "1 1/2 in".
 *
 * @param unit what a bare number is in: the unit this person reads, as UCUM code or gauge
 */
export function readQuantity(text: string, quantity: Quantity, unit: string): Typed {
  const trimmed = text.trim();
  if (trimmed === '') return { outcome: 'empty' };
  const parts = /^(-?[\d.,]+(?:\s+\d+\/\d+|\/\d+)?)\s*(.*)$/u.exec(trimmed);
  if (!parts) return { outcome: 'not_a_number' };
  const number = readNumber(parts[1]!);
  if (typeof number !== 'number') return number;
  const written = parts[2]!.toLowerCase();
  const from = written === '' ? unit : WRITTEN[quantity][written];
  if (from === undefined) return { outcome: 'unknown_unit', unit: parts[2]!, known: Object.keys(WRITTEN[quantity]) };
  try {
    const value = convertUnit({ value: number, from, to: STORED[quantity] });
    // To the last digit that a conversion can be trusted for; 18 ga is 1.0237 mm.
    return {
      outcome: 'value',
      value: from === STORED[quantity] ? value : Number(value.toPrecision(7)),
      entered: from === STORED[quantity] ? null : `${parts[1]} ${written || UNIT_WORDS[unit] || unit}`,
    };
  } catch (error) {
    if (error instanceof EngineInputError) return { outcome: 'outside', detail: error.message };
    throw error;
  }
}

/** A plain number as it is typed here and elsewhere. */
export function readNumber(text: string): number | Exclude<Typed, { outcome: 'value' | 'empty' }> {
  const fraction = /^(?:(\d+)\s+)?(\d+)\/(\d+)$/.exec(text);
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  if (!/^-?\d*(?:[.,]\d+)?$|^-?\d+[.,]$/.test(text) || !/\d/.test(text)) return { outcome: 'not_a_number' };
  const grouped = /^(-?[1-9]\d{0,2}),(\d{3})$/.exec(text);
  if (grouped)
    return { outcome: 'ambiguous', readings: [Number(`${grouped[1]}${grouped[2]}`), Number(`${grouped[1]}.${grouped[2]}`)] };
  return Number(text.replace(',', '.')) + 0;
}

/** How a unit is written beside its number. */
export const UNIT_WORDS: Readonly<Record<string, string>> = {
  mm: 'mm',
  '[in_i]': 'in',
  awg: 'ga',
  Cel: '°C',
  '[degF]': '°F',
  g: 'g',
  '[pwt_tr]': 'dwt',
  '[oz_tr]': 'ozt',
};

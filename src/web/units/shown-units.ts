import { convertUnit } from '../../../shared/units/convert-unit.ts';
import type { Words } from '../words/words.ts';
import { UNIT_WORDS, type Quantity } from './typed-quantity.ts';

/** The units a person reads and types. */
export interface ShownUnits {
  length: 'mm' | 'in' | 'gauge';
  temperature: 'C' | 'F';
  mass: 'g' | 'dwt' | 'ozt';
}

const CODES = {
  mm: 'mm',
  in: '[in_i]',
  gauge: 'mm',
  C: 'Cel',
  F: '[degF]',
  g: 'g',
  dwt: '[pwt_tr]',
  ozt: '[oz_tr]',
} as const;

/** The UCUM code a bare number of this person is in. Lengths are not written in gauge: only thicknesses are. */
export function codeFor(quantity: Quantity, units: ShownUnits, thickness = false): string {
  if (quantity === 'length') return thickness && units.length === 'gauge' ? 'awg' : CODES[units.length];
  return CODES[quantity === 'temperature' ? units.temperature : units.mass];
}

const DIGITS: Readonly<Record<string, number>> = {
  mm: 2,
  '[in_i]': 3,
  awg: 0,
  Cel: 0,
  '[degF]': 0,
  g: 2,
  '[pwt_tr]': 2,
  '[oz_tr]': 3,
};

/** A stored value with its unit, as this person reads it. */
export function showQuantity(words: Words, units: ShownUnits, quantity: Quantity, value: number, digits?: number): string {
  const code = codeFor(quantity, units);
  const stored = { length: 'mm', temperature: 'Cel', mass: 'g' }[quantity];
  return `${words.number(convertUnit({ value, from: stored, to: code }), digits ?? DIGITS[code] ?? 2)} ${UNIT_WORDS[code]}`;
}

/** A difference of temperature: 20 K are 36 °F, with no offset. */
export function showDifference(words: Words, units: ShownUnits, differenceK: number): string {
  return units.temperature === 'F' ? `${words.number(differenceK * 1.8)} °F` : `${words.number(differenceK)} °C`;
}

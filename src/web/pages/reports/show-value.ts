import { showDifference, showQuantity, type ShownUnits } from '../../units/shown-units.ts';
import type { Words } from '../../words/words.ts';
import type { Band, Kind, Money, Value } from './report-columns.ts';

/** By whom it is read. */
export interface Reader {
  words: Words;
  units: ShownUnits;
}

/** Grams under which two digits would tell nothing. */
const SMALL_G = 0.1;

/** A value with its unit or currency; a dash where nothing is known. */
export function showValue(kind: Kind, value: Value, reader: Reader): string {
  const { words } = reader;
  if (!isKnown(value)) return '–';
  if (typeof value === 'number') return showNumber(kind, value, reader);
  if (kind === 'prose') return [value as string | readonly string[]].flat().map(words.tell).join('; ');
  if (typeof value !== 'string') return showThing(value, reader);
  if (typeof kind === 'object') return words.named(kind.group, value);
  if (kind === 'date') return words.date(value);
  return kind === 'month' ? showMonth(value, words) : value;
}

export function isKnown(value: unknown): boolean {
  return value !== null && value !== undefined && !(Array.isArray(value) && value.length === 0);
}

function showThing(value: Exclude<Value, string | number>, reader: Reader): string {
  if (!value) return '–';
  if ('amountMinor' in value) return showMoney(value, reader.words);
  return 'by' in value ? showBand(value, reader) : value.join(', ');
}

export function isFigure(kind: Kind): boolean {
  return typeof kind === 'string' && !['text', 'prose', 'date', 'month', 'band'].includes(kind);
}

export function showMoney({ amountMinor, currency }: Money, words: Words): string {
  return words.money(amountMinor, currency);
}

export function showMass(grams: number, { words, units }: Reader): string {
  return showQuantity(words, units, 'mass', grams, grams !== 0 && Math.abs(grams) < SMALL_G ? 4 : undefined);
}

export function showMonth(month: string, { locale }: Words): string {
  return new Intl.DateTimeFormat(locale, { month: 'short', year: 'numeric', timeZone: 'UTC' }).format(new Date(`${month}-01`));
}

/** Hours, for a scale: 90 min are 1.5 h. */
export function showHours(minutes: number, { say, number }: Words): string {
  return say('report.hours', { hours: number(minutes / 60, Number.isInteger(minutes / 60) ? 0 : 1) });
}

function showNumber(kind: Kind, value: number, reader: Reader): string {
  const { say, number, percent } = reader.words;
  const written: Partial<Record<Extract<Kind, string>, () => string>> = {
    mass: () => showMass(value, reader),
    minutes: () => say('report.minutes', { minutes: number(value) }),
    hours: () => say('report.hours', { hours: number(value, 2) }),
    days: () => say('report.days', { days: value }),
    share: () => percent(value, Math.abs(value) < 0.1 && value !== 0 ? 1 : 0),
    ratio: () => `× ${number(value, 2)}`,
    copper: () => `${number(value, 2)} g/L`,
    pH: () => number(value, 1),
  };
  return (typeof kind === 'string' && written[kind]?.()) || number(value);
}

/** By how much a joint was predicted over or under its solidus. */
export function showBand({ by, band, fromK, toK }: Band, { words, units }: Reader): string {
  if (by === 'verdict') return words.named('report.verdict', band);
  const shown = (kelvin: number | null) => showDifference(words, units, Math.abs(kelvin ?? 0));
  const [from, to] = [shown(fromK), shown(toK)];
  if (fromK === null) return words.say('report.bandFarOver', { to });
  if (toK === null) return words.say('report.bandFarUnder', { from });
  return fromK < 0 ? words.say('report.bandOver', { from: to, to: from }) : words.say('report.bandUnder', { from, to });
}

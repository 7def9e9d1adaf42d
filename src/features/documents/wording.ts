import { Decimal } from 'decimal.js';
import { IntlMessageFormat } from 'intl-messageformat';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { de } from './messages/de.ts';
import { en, type MessageKey } from './messages/en.ts';

const LANGUAGES: Readonly<Record<string, Readonly<Record<MessageKey, string>>>> = { en, de };

/** Says the words and figures of a paper in one language. */
export interface Wording {
  /** The tag that figures and dates go by, such as de-AT. */
  locale: string;
  say: (key: MessageKey, values?: Readonly<Record<string, string | number>>) => string;
  /** An amount in whole minor units of its currency, to the last one. */
  money: (amountMinor: number, currency: string) => string;
  /** A date, ISO 8601, written out. */
  date: (date: string) => string;
  /** The same, short: for a label. */
  day: (date: string) => string;
  percent: (fraction: number) => string;
  number: (value: number, digits: number) => string;
  grams: (value: number) => string;
  /** A metal of the table by its id, in words; undefined for one that has none here. */
  metal: (id: string) => string | undefined;
}

/** @param languages BCP 47, wished for in this order; the first that the papers are written in is taken, else English */
export function wordingFor(...languages: readonly string[]): Wording {
  const locale = languages.find((tag) => baseOf(tag) in LANGUAGES && isLocale(tag)) ?? 'en';
  const messages = LANGUAGES[baseOf(locale)]!;
  const formats = new Map<MessageKey, IntlMessageFormat>();
  const say: Wording['say'] = (key, values = {}) => {
    const format = formats.get(key) ?? new IntlMessageFormat(messages[key], locale, undefined, { ignoreTag: true });
    formats.set(key, format);
    return String(format.format(values));
  };
  const inStyle = (dateStyle: 'long' | 'medium', date: string) =>
    new Intl.DateTimeFormat(locale, { dateStyle, timeZone: 'UTC' }).format(new Date(`${date}T00:00:00Z`));
  const unit = (kind: string, digits: number) =>
    new Intl.NumberFormat(locale, { style: 'unit', unit: kind, minimumFractionDigits: digits, maximumFractionDigits: digits });
  return {
    locale,
    say,
    money(amountMinor, currency) {
      const digits = minorDigits(currency);
      const format = new Intl.NumberFormat(locale, {
        style: 'currency',
        currency,
        minimumFractionDigits: digits,
        maximumFractionDigits: digits,
      });
      // A decimal string, so that no figure passes through a binary fraction.
      return format.format(new Decimal(amountMinor).div(Decimal.pow(10, digits)).toFixed(digits) as `${number}`);
    },
    date: (date) => inStyle('long', date),
    day: (date) => inStyle('medium', date),
    percent: (fraction) => new Intl.NumberFormat(locale, { style: 'percent', maximumFractionDigits: 2 }).format(fraction),
    number: (value, digits) =>
      new Intl.NumberFormat(locale, { minimumFractionDigits: digits, maximumFractionDigits: digits }).format(value),
    grams: (value) => unit('gram', 2).format(value),
    metal: (id) => (`metal.${id}` in messages ? say(`metal.${id}` as MessageKey) : undefined),
  };
}

function baseOf(tag: string): string {
  return tag.split('-')[0]!.toLowerCase();
}

function isLocale(tag: string): boolean {
  try {
    return Intl.getCanonicalLocales(tag).length === 1;
  } catch {
    return false;
  }
}

import { gramsPer, type MassUnit } from '../../units/mass-unit.ts';
import { moneyInField, moneyTyped } from '../../units/typed-money.ts';
import { decimalOf, inField, numberOf } from '../../units/typed-number.ts';
import type { SettingKind, Settings } from './settings-fields.ts';

/** What was typed and is not saved yet, by the path of its setting. */
export type Typed = Readonly<Record<string, unknown>>;

/** A setting as it is typed. */
export function shownSetting(settings: Settings, { path, kind }: { path: string; kind: SettingKind }, locale: string): unknown {
  const value = path.split('.').reduce<unknown>((inside, name) => (inside as Record<string, unknown> | null)?.[name], settings);
  if (kind === 'tick' || kind === 'weekdays') return value;
  if (value === null || value === undefined) return '';
  if (typeof value === 'string') return kind === 'amount' ? inField(value, locale) : value;
  // A torch of one's own is described elsewhere; here it is only told.
  if (typeof value !== 'number') return 'own';
  if (kind === 'coins') return moneyInField(locale, { amountMinor: value, currency: settings.currency });
  return inField(String(kind === 'percent' ? Number((value * 100).toPrecision(12)) : value), locale);
}

/** What is sent for it. Text that is no number is sent as it is: the server says so at its place. */
export function sentSetting(typed: unknown, kind: Exclude<SettingKind, 'coins'>): unknown {
  if (typeof typed !== 'string') return typed;
  const text = typed.trim();
  switch (kind) {
    case 'time':
      return text === '' ? null : text;
    case 'amount':
      return decimalOf(text);
    case 'number':
    case 'percent': {
      const value = numberOf(text) ?? text;
      return kind === 'percent' && typeof value === 'number' ? Number((value / 100).toPrecision(12)) : value;
    }
    case 'lines':
      return typed;
    case 'text':
    case 'choice':
    case 'tick':
    case 'weekdays':
      return text;
  }
}

/** Money in whole minor units; text that is no number is sent as it is. */
export function sentCoins(typed: unknown, currency: string): unknown {
  const { amountMinor } = moneyTyped(String(typed), currency);
  return Number.isNaN(amountMinor) ? typed : amountMinor;
}

/** Before the code of a solder: the share of it that is trimmed off. */
export const SOLDER_TRIM = 'solderTrims/';

/** A merge patch that says what was typed. */
export function patchOf(sent: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const patch: Record<string, unknown> = {};
  for (const [path, value] of Object.entries(sent)) {
    const names = path.split('.');
    const last = names.pop()!;
    let inside = patch;
    for (const name of names) inside = (inside[name] ??= {}) as Record<string, unknown>;
    inside[last] = value;
  }
  return patch;
}

export interface TypedFinePrice {
  amount: string;
  per: MassUnit;
  source: string;
  /** The day it is of. */
  on: string;
}

export interface TypedProfit {
  said: 'margin' | 'markup';
  percent: string;
}

/** What a gram costs, as it is sent; undefined while there is no number. */
export function perGram({ amount, per }: Pick<TypedFinePrice, 'amount' | 'per'>): string | undefined {
  const value = numberOf(amount);
  return typeof value === 'number' ? String(Number((value / gramsPer(per)).toFixed(6))) : undefined;
}

/** The settings that have a place of their own, by the name under which they are typed. */
export function sentOfItsOwn(path: string, typed: unknown): unknown {
  if (path === 'bench.torchId') return typed;
  if (path === 'profit') {
    const { said, percent } = typed as TypedProfit;
    return { [`${said}Fraction`]: sentSetting(percent, 'percent') };
  }
  const { amount, per, source, on } = typed as TypedFinePrice;
  return { perG: perGram({ amount, per }) ?? amount.trim(), source: source.trim(), typedAt: `${on}T12:00:00Z` };
}

/** What a setting with a place of its own is given. */
export interface OwnPlace {
  settings: Settings;
  typed: Typed;
  type: (path: string, value: unknown) => void;
  error: Error | undefined;
}

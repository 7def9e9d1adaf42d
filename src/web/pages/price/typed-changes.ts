import { minorDigits } from '../../../../shared/costing/currency.ts';
import { inField } from '../../units/typed-number.ts';
import { readNumber } from '../../units/typed-quantity.ts';

/** What somebody typed in place of a number of the book, by where it stands in the request; as it was typed. */
export type Typed = Readonly<Record<string, string>>;
type Path = readonly string[];

export const keyOf = (path: Path): string => JSON.stringify(path);
const pathOf = (key: string) => JSON.parse(key) as string[];

export const MARGIN: Path = ['policy', 'profit', 'marginFraction'];
export const MARKUP: Path = ['policy', 'profit', 'markupFraction'];

/** Members that are words, not numbers. */
const WORDS = new Set(['method', 'kind', 'role']);
/** Members that go over the wire as numbers; every other number is money, a decimal string. */
const isPlain = (name: string) => name === 'minutes';
const isPercent = (name: string) => name.endsWith('Fraction');
/** Whole minor units on the wire. */
const isCoins = (name: string) => name.endsWith('Minor');

/** How a value of the request stands in a field: shares in percent, money in the currency's own unit. */
export function shownIn({ locale, currency }: { locale: string; currency: string }, name: string, value: unknown): string {
  if (value === undefined || value === null) return '';
  if (typeof value === 'string' && WORDS.has(name)) return value;
  const number = (Number(value) * (isPercent(name) ? 100 : 1)) / (isCoins(name) ? 10 ** minorDigits(currency) : 1);
  return inField(String(Number(number.toFixed(6))), locale);
}

/** Where a request, or a patch of it, has a value; lists whose members have names are walked by name. */
export function valueAt(request: unknown, path: Path): unknown {
  return path.reduce<unknown>((inner, name) => {
    if (Array.isArray(inner)) return inner.find((one: Record<string, unknown>) => (one['id'] ?? one['operation']) === name);
    return (inner as Record<string, unknown> | undefined | null)?.[name];
  }, request);
}

/** Types one value; an empty field is the book's again. Margin and markup exclude each other. */
export function type(typed: Typed, path: Path, text: string): Typed {
  const without = path[1] === 'profit' ? [MARGIN, MARKUP].map(keyOf) : [keyOf(path)];
  const rest = Object.fromEntries(Object.entries(typed).filter(([key]) => !without.includes(key)));
  return text.trim() === '' ? rest : { ...rest, [keyOf(path)]: text };
}

/** Takes out all that was typed under a name, such as a stone that is bought in. */
export function untype(typed: Typed, under: Path): Typed {
  return Object.fromEntries(Object.entries(typed).filter(([key]) => !under.every((name, index) => pathOf(key)[index] === name)));
}

/** What cannot be read as a number, and the readings of what could be two numbers. */
export type Fault = 'not_a_number' | [number, number];

export interface Read {
  /** JSON Merge Patch of the request. */
  overrides: Record<string, unknown>;
  faults: ReadonlyMap<string, Fault>;
}

export function read(typed: Typed, currency: string): Read {
  const overrides: Record<string, unknown> = {};
  const faults = new Map<string, Fault>();
  for (const [key, text] of Object.entries(typed)) {
    const path = pathOf(key);
    const value = valueOf(path.at(-1)!, text.trim(), currency);
    if ('fault' in value) faults.set(key, value.fault);
    else put(overrides, path, value.value);
  }
  return { overrides, faults };
}

function valueOf(name: string, text: string, currency: string): { value: unknown } | { fault: Fault } {
  if (WORDS.has(name)) return { value: text };
  const number = readNumber(text.replace(/\s*%$/, ''));
  if (typeof number !== 'number') return { fault: number.outcome === 'ambiguous' ? number.readings : 'not_a_number' };
  if (isPercent(name)) return { value: Number((number / 100).toFixed(8)) };
  if (isCoins(name)) return { value: Number((number * 10 ** minorDigits(currency)).toFixed(4)) };
  return { value: isPlain(name) ? number : String(Number(number.toFixed(6))) };
}

/** Puts a value where it belongs, with what it lies in. */
function put(into: Record<string, unknown>, path: Path, value: unknown): void {
  const [name, ...rest] = path as [string, ...string[]];
  if (rest.length === 0) into[name] = value;
  else put((into[name] ??= {}) as Record<string, unknown>, rest, value);
}

/** Everything typed for a version, leaf by leaf. */
export function leavesOf(overrides: unknown, at: Path = []): { path: Path; value: unknown }[] {
  if (typeof overrides !== 'object' || overrides === null || Array.isArray(overrides))
    return at.length === 0 ? [] : [{ path: at, value: overrides }];
  return Object.entries(overrides).flatMap(([name, inner]) => leavesOf(inner, [...at, name]));
}

/** The patch that gives one number back to the book. */
export function givenBack(path: Path): Record<string, unknown> {
  const patch: Record<string, unknown> = {};
  put(patch, path, null);
  return patch;
}

/** For laying over what is typed already: of margin and markup the new one alone stays. */
export function overTyped(overrides: Record<string, unknown>): Record<string, unknown> {
  const profit = valueAt(overrides, ['policy', 'profit']);
  if (profit === undefined) return overrides;
  const both = { marginFraction: null, markupFraction: null, ...(profit as object) };
  return { ...overrides, policy: { ...(overrides['policy'] as object), profit: both } };
}

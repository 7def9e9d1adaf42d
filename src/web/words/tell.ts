import { IntlMessageFormat } from 'intl-messageformat';
import { groupBy } from '../../../shared/group-by.ts';
import { figuresOf } from './figures-of.ts';
import { firstWordOf, splits, templateOf, type Template } from './template.ts';

/** By English template: what is said for it. */
export type Said = Readonly<Record<string, string>>;

interface Told {
  text: string;
  /** Letters that are left as they came, names and figures apart. */
  left: number;
}

/** With fewer letters a template fits too much: clauses are told by themselves before it is tried. */
const SURE_WEIGHT = 10;
/** With fewer it must leave nothing in its places that is not known. */
const PARTLY_WEIGHT = 6;
/** With fewer yet one of its values must be known as a phrase. */
const FAINT_WEIGHT = 2;

/**
 * Tells what the engine and the server say in English in the words of a catalogue, as the reader writes figures.
 *
 * Of the templates that a sentence fits the one with most letters tells it, what is put into it told by itself, where that leaves
 * nothing unknown; else sentences, clauses and lists are told one by one. What fits nothing stays as it is.
 *
 * @param catalogue English templates, with {0}, {1} … for what the source puts in, and their translation: the same places, or an ICU message
 */
export function teller(catalogue: Said, locale: string): (sentence: string) => string {
  // Without a prototype: what was sent may be called toString.
  const said: Said = Object.assign(Object.create(null), catalogue);
  const templates = Object.keys(said).map(templateOf);
  const joiners = templates.flatMap(({ key, literals }) => (literals.length === 1 && /^\W* .* $/.test(key) ? [key] : []));
  const byFirstWord = candidatesByFirstWord(templates.filter(({ literals }) => literals.length > 1));
  const candidates = (text: string) => byFirstWord.get(/^\S+/.exec(text)?.[0] ?? '') ?? byFirstWord.get('') ?? [];
  const formats = new Map<string, IntlMessageFormat>();
  const known = new Map<string, Told | undefined>();

  const shown = (value: string) => told(value)?.text ?? figuresOf(value, locale);
  const leftOf = (value: string) => (isName(value) ? 0 : (told(value)?.left ?? lettersIn(value)));
  const isKnown = (value: string) => leftOf(value) === 0;

  function told(text: string): Told | undefined {
    if (known.has(text)) return known.get(text);
    // Until it is told, so that nothing is told by way of itself.
    known.set(text, undefined);
    let found: Told | undefined;
    for (const way of [
      bySureTemplate,
      byUnstopped,
      bySentences,
      byClauses,
      byColon,
      byFaintTemplate,
      byOtherCase,
      byUnit,
      byName,
      byList,
    ]) {
      const one = way(text);
      if (one && (!found || one.left < found.left)) found = one;
      if (found?.left === 0) break;
    }
    known.set(text, found);
    return found;
  }

  function bySureTemplate(text: string): Told | undefined {
    if (text in said) return { text: said[text]!, left: 0 };
    return byTemplate(text, ({ weight }) => weight >= SURE_WEIGHT);
  }

  function byFaintTemplate(text: string): Told | undefined {
    return byTemplate(text, ({ weight }) => weight < SURE_WEIGHT);
  }

  function byAnyTemplate(text: string): Told | undefined {
    return bySureTemplate(text) ?? byFaintTemplate(text);
  }

  function byTemplate(text: string, among: (template: Template) => boolean): Told | undefined {
    let partly: Told | undefined;
    for (const template of candidates(text)) {
      if (!among(template)) continue;
      let first: readonly string[] | undefined;
      for (const values of splits(template, text)) {
        if (values.slice(0, takesMore(template) ? -1 : undefined).some(isMoreThanOne)) continue;
        first ??= values;
        if (!values.every(isKnown)) continue;
        if (template.weight < FAINT_WEIGHT && !values.some((value) => told(value))) continue;
        return { text: filled(template, values, text), left: 0 };
      }
      if (first && template.weight >= PARTLY_WEIGHT)
        partly ??= { text: filled(template, first, text), left: sum(first.map(leftOf)) };
    }
    return partly;
  }

  function filled({ key }: Template, values: readonly string[], english: string): string {
    const message = said[key]!;
    const text = /\{\d+, (plural|select),/.test(message)
      ? formatted(message, values)
      : message.replaceAll(/\{(\d+)\}/g, (_, at: string) => shown(values[Number(at)]!));
    return message.startsWith('{') && /^\p{Lu}/u.test(english) ? capital(text) : text;
  }

  function formatted(message: string, values: readonly string[]): string {
    const format = formats.get(message) ?? new IntlMessageFormat(message, locale, undefined, { ignoreTag: true });
    formats.set(message, format);
    const named = values.map((value, at) => {
      if (message.includes(`{${at}, plural,`)) return [at, numberIn(value)];
      return [at, message.includes(`{${at}, select,`) && message.includes(`${value} {`) ? value : shown(value)];
    });
    return String(format.format(Object.fromEntries(named)));
  }

  /** A sentence that was given its full stop where it was said. */
  function byUnstopped(text: string): Told | undefined {
    const one = /[^.]\.$/.test(text) ? told(text.slice(0, -1)) : undefined;
    return one && { ...one, text: `${one.text}.` };
  }

  /** A phrase that begins a sentence, or a sentence that became a clause. */
  function byOtherCase(text: string): Told | undefined {
    if (/^\p{Lu}(?!\p{Lu})/u.test(text)) {
      const one = byAnyTemplate(text[0]!.toLowerCase() + text.slice(1));
      return one && { ...one, text: capital(one.text) };
    }
    if (!/^\p{Ll}+ /u.test(text)) return undefined;
    const one = byAnyTemplate(capital(text));
    return one && { ...one, text: one.text[0]!.toLowerCase() + one.text.slice(1) };
  }

  function bySentences(text: string): Told | undefined {
    return byRuns(text.split(/((?<=[.!?]) (?=[\p{Lu}\p{N}/?])|\s*\n\s*)/u));
  }

  function byClauses(text: string): Told | undefined {
    return byRuns(text.split(/(; )/));
  }

  /**
   * What stands after one another: one by one, or as much at once as fits a template.
   *
   * @param pieces and what stands between them, by turns
   */
  function byRuns(pieces: readonly string[]): Told | undefined {
    if (pieces.length < 3) return undefined;
    const out: string[] = [];
    let isAny = false;
    let left = 0;
    for (let at = 0, next = 0; at < pieces.length; at = next + 1) {
      next = at + 1;
      let one = told(pieces[at]!);
      for (let end = pieces.length; end > at + 1 && one?.left !== 0; end -= 2) {
        const run = end - at < pieces.length ? bySureTemplate(pieces.slice(at, end).join('')) : undefined;
        if (run?.left !== 0) continue;
        one = run;
        next = end;
      }
      isAny ||= one !== undefined;
      left += one ? one.left : leftOf(pieces[at]!);
      out.push(one?.text ?? figuresOf(pieces[at]!, locale), pieces[next] ?? '');
    }
    return isAny ? { text: out.join(''), left } : undefined;
  }

  /** What is said of something. */
  function byColon(text: string): Told | undefined {
    let partly: Told | undefined;
    for (let at = text.indexOf(': '); at !== -1; at = text.indexOf(': ', at + 1)) {
      const [name, says] = [text.slice(0, at), text.slice(at + 2)];
      if (!told(name) && !told(says)) continue;
      const one = { text: `${shown(name)}: ${shown(says)}`, left: leftOf(name) + leftOf(says) };
      if (!partly || one.left < partly.left) partly = one;
    }
    return partly;
  }

  /** A figure and what it counts. */
  function byUnit(text: string): Told | undefined {
    const [, figure, unit] = /^(-?[\d.,]+) (\D.*)$/.exec(text) ?? [];
    return unit !== undefined && unit in said ? { text: `${figuresOf(figure!, locale)} ${said[unit]!}`, left: 0 } : undefined;
  }

  /** A state or a kind as the API writes it: in_use. */
  function byName(text: string): Told | undefined {
    return /^[a-z]+(_[a-z]+)+$/.test(text) ? told(text.replaceAll('_', ' ')) : undefined;
  }

  /** Nothing but names and phrases, with commas or a word between them. */
  function byList(text: string): Told | undefined {
    for (const joiner of [', ', ...joiners]) {
      const parts = text.split(joiner);
      if (parts.length < 2 || !parts.every((part) => part !== '' && isKnown(part))) continue;
      if (joiner in said || parts.some((part) => told(part)))
        return { text: parts.map(shown).join(said[joiner] ?? joiner), left: 0 };
    }
    return undefined;
  }

  return (sentence) => told(sentence)?.text ?? sentence;
}

/** A name, a list of names, a figure with its unit: nothing that would be told. */
function isName(text: string): boolean {
  return text.split(', ').every((one) => !/\p{L}.*\s|\s.*\p{L}/u.test(one) || /^[\d.,]+ \S{1,5}$/.test(one));
}

const lettersIn = (text: string): number => text.replaceAll(/[^\p{L}]/gu, '').length;

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);

/** Whether its last place, after a colon or another clause, may hold several clauses or sentences. */
function takesMore({ literals }: Template): boolean {
  return /[:;]/.test(literals.at(-2)!);
}

/** Several clauses or sentences, which no other place holds. */
function isMoreThanOne(value: string): boolean {
  return /; |\n|[.!?] \p{Lu}/u.test(value);
}

/** Templates that a sentence of this first word may be: those that begin with it before those that begin with a place, the surest first. */
function candidatesByFirstWord(templates: readonly Template[]): ReadonlyMap<string, readonly Template[]> {
  const surest = templates.toSorted((a, b) => b.weight - a.weight || b.key.length - a.key.length);
  const groups = groupBy(surest, firstWordOf);
  const any = groups.get('') ?? [];
  return new Map([...groups].map(([word, group]) => [word, word === '' ? group : [...group, ...any]]));
}

/** What a plural goes by. */
function numberIn(value: string): string | number {
  return /^-?\d+(\.\d+)?$/.test(value) ? Number(value) : value;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

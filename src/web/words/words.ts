import { IntlMessageFormat } from 'intl-messageformat';
import { createContext } from 'preact';
import { useContext } from 'preact/hooks';
import { en, type MessageKey } from './en/index.ts';
import { fieldNamer, placeInWords, withFieldsInWords, type NameField } from './field-words.ts';
import { showMoney } from './show-money.ts';

export type { MessageKey };
type Values = Readonly<Record<string, string | number>>;

/** Says the words and figures of the page in one language. */
export interface Words {
  /** The tag that figures and dates go by, such as de-AT. */
  locale: string;
  say: (key: MessageKey, values?: Values) => string;
  /** Says a value that the server names, by its own key; as it came when there is no word for it. */
  named: (group: string, value: string, values?: Values) => string;
  /** Says what the engine or the server said in English; as it came when there are no words for it. */
  tell: (sentence: string) => string;
  /** Says where a field stands that was refused, by the pointer of the refusal. */
  place: (pointer: string) => string;
  number: (value: number, digits?: number) => string;
  money: (amountMinor: number, currency: string) => string;
  /** A date, ISO 8601. */
  date: (date: string) => string;
  /** A moment, RFC 3339, on the studio's clock. */
  moment: (at: string, timeZone?: string) => string;
  percent: (fraction: number, digits?: number) => string;
}

export const LANGUAGES = ['en', 'de'] as const;

/** The messages of a language; English is the one that is always there. */
export async function messagesOf(language: string): Promise<Readonly<Record<MessageKey, string>>> {
  return language.split('-')[0] === 'de' ? (await import('./de/index.ts')).de : en;
}

type Telling = Pick<Words, 'tell' | 'place'>;

/** How the sentences of the engine and of the server are told in a language, and what fields are called; English stays as it comes. */
export async function tellingOf(language: string): Promise<Telling> {
  if (language.split('-')[0] !== 'de') return IN_ENGLISH;
  const [{ SAID }, { fieldNames }, { de }, { teller }] = await Promise.all([
    import('./de/said/index.ts'),
    import('./de/field-names.ts'),
    import('./de/index.ts'),
    import('./tell.ts'),
  ]);
  return telling(fieldNamer({ ...de, ...fieldNames }), teller(SAID, language));
}

function telling(nameField: NameField, tell: Words['tell'] = (sentence) => sentence): Telling {
  return {
    tell: (sentence) => withFieldsInWords(tell(sentence), nameField),
    place: (pointer) => placeInWords(pointer, nameField),
  };
}

const IN_ENGLISH = telling(fieldNamer(en));

/** @param locale BCP 47; one that the page is not written in keeps its figures and gets English words */
export function wordsIn(locale: string, messages: Readonly<Record<MessageKey, string>>, told: Telling = IN_ENGLISH): Words {
  const formats = new Map<MessageKey, IntlMessageFormat>();
  const say: Words['say'] = (key, values = {}) => {
    const format = formats.get(key) ?? new IntlMessageFormat(messages[key], locale, undefined, { ignoreTag: true });
    formats.set(key, format);
    return String(format.format(values));
  };
  return {
    locale,
    say,
    named: (group, value, values) => {
      const key = `${group}.${value}` as MessageKey;
      return key in messages ? say(key, values) : value.replaceAll('_', ' ');
    },
    ...told,
    number: (value, digits = 0) =>
      new Intl.NumberFormat(locale, { minimumFractionDigits: digits, maximumFractionDigits: digits }).format(value),
    money: (amountMinor, currency) => showMoney(locale, amountMinor, currency),
    date: (date) =>
      new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeZone: 'UTC' }).format(new Date(`${date}T00:00:00Z`)),
    moment: (at, timeZone) =>
      new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short', ...(timeZone && { timeZone }) }).format(
        new Date(at),
      ),
    percent: (fraction, digits = 0) =>
      new Intl.NumberFormat(locale, { style: 'percent', minimumFractionDigits: digits, maximumFractionDigits: digits }).format(
        fraction,
      ),
  };
}

export const WordsContext = createContext<Words>(wordsIn('en', en));

export function useWords(): Words {
  return useContext(WordsContext);
}

/** What is known of a client in words: what is taken out of the book when they are forgotten. */
export interface ClientWords {
  /** Names, whole: they are found anywhere in the book. */
  names: readonly string[];
  /** Parts of names, which may be common words: looked for only in what is of this client. */
  partsOfNames: readonly string[];
  /** How they are reached and what they said or left: found anywhere, for nobody else says it so. */
  said: readonly string[];
}

const LEAST_LETTERS = 3;
/** A shorter line, such as a country, is said of many. */
const LEAST_OF_LINE = 8;
const GONE = '…';

/**
 * @param names as they were ever written
 * @param said e-mail addresses, telephone numbers, addresses, wishes, notes and messages
 */
export function clientWords(names: readonly string[], said: readonly string[]): ClientWords {
  const whole = names.filter((name) => name.length >= LEAST_LETTERS);
  const manyWords = whole.filter((name) => /\s/.test(name));
  const parts = whole.flatMap((name) => name.split(/[\s,]+/)).filter((part) => part.length >= LEAST_LETTERS);
  const lines = said.flatMap((text) => (text.includes('\n') ? [text, ...text.split('\n')] : [text]));
  return {
    names: longestFirst(manyWords),
    partsOfNames: longestFirst([...whole, ...parts]),
    said: longestFirst(lines.map((line) => line.trim()).filter((line) => line.length >= LEAST_OF_LINE)),
  };
}

/** @param called what stands for the client's name from now on */
export function forgetter({ names, partsOfNames, said }: ClientWords, called: string) {
  const anywhere = [pattern(said, GONE), pattern(names, called)];
  const ofTheirs = [...anywhere, pattern(partsOfNames, called)];
  /** @param isTheirs whether it is of this client */
  const text = (words: string, isTheirs: boolean): string =>
    (isTheirs ? ofTheirs : anywhere).reduce((left, { find, put }) => (find ? left.replace(find, put) : left), words);
  const value = (given: unknown, isTheirs: boolean, key = ''): unknown => {
    if (isTheirs && NEVER_KEPT.has(key)) return null;
    if (typeof given === 'string') return text(given, isTheirs);
    if (Array.isArray(given)) return given.map((one) => value(one, isTheirs, key === 'clientProperty' ? 'property' : key));
    if (typeof given !== 'object' || given === null) return given;
    return Object.fromEntries(
      Object.entries(given).map(([name, one]) => [
        name,
        key === 'property' && isTheirs && name === 'what' ? GONE : value(one, isTheirs, name),
      ]),
    );
  };
  return { text, json: (written: string, isTheirs: boolean) => JSON.stringify(value(JSON.parse(written), isTheirs)) };
}

/** Fields of kept objects that hold nothing but what is the client's. */
const NEVER_KEPT: ReadonlySet<string> = new Set([
  'email',
  'phone',
  'postAddress',
  'ringSizeMm',
  'metalSensitivity',
  'notes',
  'wish',
]);

function pattern(words: readonly string[], put: string): { find: RegExp | null; put: string } {
  if (words.length === 0) return { find: null, put };
  const any = words.map((word) => word.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`)).join('|');
  return { find: new RegExp(String.raw`(?<![\p{L}\p{N}])(?:${any})(?![\p{L}\p{N}])`, 'giu'), put };
}

function longestFirst(words: readonly string[]): string[] {
  return [...new Set(words)].toSorted((a, b) => b.length - a.length);
}

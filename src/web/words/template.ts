/** A sentence of the source with places for values: {0}, {1} … in the order they stand there. */
export interface Template {
  key: string;
  /** What stands before, between and after its places. */
  literals: readonly string[];
  /** Letters and digits that are no place: the more, the surer a sentence is this one. */
  weight: number;
}

const PLACE = /\{\d+\}/;
const SPLITS_TRIED = 400;

export function templateOf(key: string): Template {
  const literals = key.split(PLACE);
  return { key, literals, weight: literals.join('').replaceAll(/[^\p{L}\p{N}]/gu, '').length };
}

/** The first word, if it stands whole before the first place: sentences of this template begin with it. */
export function firstWordOf({ literals }: Template): string {
  return /^\S+(?=\s)/.exec(literals[0]!)?.[0] ?? '';
}

/** Every way in which a sentence fits a template, as the values in its places; places that touch part at the edge of a word. */
export function* splits({ literals }: Template, sentence: string): Generator<readonly string[]> {
  const last = literals.length - 1;
  if (last === 0) {
    if (sentence === literals[0]) yield [];
    return;
  }
  const end = sentence.length - literals[last]!.length;
  if (end < literals[0]!.length || !sentence.startsWith(literals[0]!) || !sentence.endsWith(literals[last]!)) return;
  let left = SPLITS_TRIED;
  function* from(index: number, begin: number, values: readonly string[]): Generator<readonly string[]> {
    if (index === last) {
      yield [...values, sentence.slice(begin, end)];
      return;
    }
    const literal = literals[index]!;
    for (
      let at = sentence.indexOf(literal, begin);
      at !== -1 && at + literal.length <= end;
      at = sentence.indexOf(literal, at + 1)
    ) {
      if (literal === '' && at > begin && at < end && /[\p{L}\p{N}]/u.test(sentence[at]!)) continue;
      if ((left -= 1) < 0) return;
      yield* from(index + 1, at + literal.length, [...values, sentence.slice(begin, at)]);
    }
  }
  yield* from(1, literals[0]!.length, []);
}

import { expect, test } from 'vitest';
import { z } from 'zod';
import { issueWords } from '../../src/platform/http/issue-words.ts';
import { fieldErrors } from '../../src/platform/http/validate.ts';
import { SAID } from '../../src/web/words/de/said/index.ts';
import { teller } from '../../src/web/words/tell.ts';

const tell = teller(SAID, 'de');

const aKind = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('bar') }),
  z.strictObject({ kind: z.literal('ring') }),
]);

test.each<[z.ZodType, unknown, string, string]>([
  [aKind, { kind: 'cube' }, 'It must be one of bar, ring.', 'Hierher gehört eines von bar, ring.'],
  [z.strictObject({}), { lenght: 1 }, 'There is no field "lenght" here.', 'Ein Feld „lenght“ gibt es hier nicht.'],
  [z.number(), '4', 'It must be a number; this is text.', 'Hierher gehört eine Zahl; da steht Text.'],
  [z.number().int(), 1.5, 'It must be a whole number; this is 1.5.', 'Hierher gehört eine ganze Zahl; da steht 1,5.'],
  [z.number().multipleOf(5), 7, 'It must be a multiple of 5.', 'Das muss ein Vielfaches von 5 sein.'],
  [z.string().startsWith('C'), 'x', 'It is not written as it must be here.', 'So wird es hier nicht geschrieben.'],
  [
    z.union([z.number(), z.string()]),
    [],
    'It must be a number; this is a list.',
    'Hierher gehört eine Zahl; da steht eine Liste.',
  ],
  [z.union([]), 1, 'It has none of the shapes that are taken here.', 'Nichts von dem, was hierher gehört, sieht so aus.'],
  [
    z.record(z.string().max(2), z.number()),
    { abc: 1 },
    'It can have 2 characters at most.',
    'Das darf höchstens 2 Zeichen haben.',
  ],
  [z.number().refine(() => false), 1, 'It cannot be used here.', 'Das ist hier nicht zu gebrauchen.'],
])('a refused field is told in our words, and in German: %#', (schema, value, english, german) => {
  const { error } = schema.safeParse(value, { error: issueWords, reportInput: true });
  const [detail] = error!.issues.flatMap((issue) => fieldErrors(issue, '')).map((one) => one.detail);
  expect(detail).toBe(english);
  expect(tell(english)).toBe(german);
});

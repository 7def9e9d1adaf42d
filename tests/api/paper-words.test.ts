import { expect, test } from 'vitest';
import { de } from '../../src/features/documents/messages/de.ts';
import { en } from '../../src/features/documents/messages/en.ts';
import { htmlPaper } from '../../src/features/documents/html-paper.ts';
import type { Paper } from '../../src/features/documents/paper.ts';
import { pdfPaper } from '../../src/features/documents/pdf-paper.ts';
import { wordingFor } from '../../src/features/documents/wording.ts';
import { readPdf } from '../support/read-pdf.ts';

const paperOf = (blocks: Paper['blocks']): Paper => ({
  language: 'de',
  title: 'Probe Łź',
  author: 'Werkstatt Ž',
  size: 'A4',
  writtenAt: '2031-05-05T08:00:00Z',
  blocks,
});
const pageOf = (page: number, pages: number) => `${page}/${pages}`;

test('the fonts in the paper carry every letter of the messages, and the names of Europe', async () => {
  const messages = [...Object.values(en), ...Object.values(de)].join(' ');
  const letters = [
    ...new Set(
      `${messages} Łódź Čapek ẞ € £ ¥ ₣ zł Kč ☐ ø × ÷ ± ° ² ³ ½ Æ Ø Å Ñ Ç Ğ İ ő ű ș ț Ωμέγα Жизнь «» „“ – — …`.replaceAll(
        /\s/g,
        '',
      ),
    ),
  ];
  expect(letters.length).toBeGreaterThan(100);
  const { text } = await readPdf(await pdfPaper(paperOf(letters.map((text) => ({ kind: 'paragraph', text }))), pageOf));
  for (const letter of letters) expect(text, letter).toContain(letter);
  const { bytes } = await readPdf(await pdfPaper(paperOf([{ kind: 'title', text: 'Ł' }]), pageOf));
  // Both are inside, and nothing of the reader's machine is asked for.
  expect(bytes.toString('latin1')).toMatch(/\/FontFile2/);
  expect(bytes.toString('latin1')).not.toMatch(/Helvetica|Times/);
});

/** What follows one or other is words, not a value. */
const names = (message: string) => new Set([...message.matchAll(/(?<!(?:one|other|=0) )\{(\w+)[,}]/g)].map(([, name]) => name));

test('both languages have every message, with the same values in it', () => {
  expect(Object.keys(de)).toEqual(Object.keys(en));
  for (const [key, message] of Object.entries(en))
    expect([key, names(de[key as keyof typeof en])]).toEqual([key, names(message)]);
});

test('amounts have the digits of their currency, in the manner of the language', () => {
  const [english, german] = [wordingFor('en'), wordingFor('de')];
  expect(english.money(123_456, 'EUR')).toBe('€1,234.56');
  expect(german.money(123_456, 'EUR')).toBe('1.234,56\u00a0€');
  expect(english.money(123_456, 'JPY')).toBe('¥123,456');
  expect(german.money(123_456, 'KWD')).toBe('123,456\u00a0KWD');
  // No binary fraction: 2^53 − 1 minor units to the last one.
  expect(english.money(9_007_199_254_740_991, 'EUR')).toBe('€90,071,992,547,409.91');
  expect(german.date('2031-05-05')).toBe('5. Mai 2031');
});

test('a language the papers are not written in gives way to the next, and a broken tag to English', () => {
  expect(wordingFor('fr', 'de').locale).toBe('de');
  expect(wordingFor('de-CH').say('paper.bill')).toBe('Rechnung');
  expect(wordingFor('fr', 'it').locale).toBe('en');
  expect(wordingFor('de-a', 'xx').locale).toBe('en');
  expect(wordingFor('en').metal('copper')).toBeUndefined();
});

test('a long paper goes over pages, each numbered, and every line of it is there once', async () => {
  const rows = Array.from({ length: 120 }, (_, index) => ({
    label: `Label ${index}.`,
    value: `Value ${index}. ${'word '.repeat(20)}`,
  }));
  const table = { kind: 'table' as const, head: ['A', 'B'], rows: rows.map(({ label }) => [label, 'x']), amounts: true };
  const paper = paperOf([
    { kind: 'heading', text: 'Long' },
    { kind: 'facts', rows },
    table,
    { kind: 'blanks', labels: ['Name'] },
  ]);
  const { text, bytes } = await readPdf(await pdfPaper(paper, pageOf));
  const pages = Number(/1\/(\d+)/.exec(text)![1]);
  expect(pages).toBeGreaterThan(6);
  for (let page = 1; page <= pages; page++) expect(text).toContain(`${page}/${pages}`);
  for (let index = 0; index < 120; index++) expect(text.split(`Value ${index}. `)).toHaveLength(2);
  expect((await pdfPaper(paper, pageOf)).equals(bytes)).toBe(true);
  expect(htmlPaper(paper).split('<tr>')).toHaveLength(122);
});

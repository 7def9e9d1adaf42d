import { expect, test } from 'vitest';
import { apiDocument, operationsOf, resolved, type Schema } from '../support/api-document.ts';
import { startApp } from '../support/start-app.ts';
import { de } from '../../src/web/words/de/index.ts';
import { fieldNames } from '../../src/web/words/de/field-names.ts';
import { en } from '../../src/web/words/en/index.ts';
import { fieldNamer, placeInWords, withFieldsInWords } from '../../src/web/words/field-words.ts';

const inEnglish = fieldNamer(en);
const inGerman = fieldNamer({ ...de, ...fieldNames });

test.each([
  ['/lines/1/quantityG', 'Line 2, quantity', 'Zeile 2, Menge'],
  ['/parts/0/form/thicknessMm', 'Part 1, form, thickness', 'Teil 1, Form, Dicke'],
  [
    '/overrides/policy/ratesPerHour/bench',
    'Typed in place of the book, policy, rates per hour, bench',
    'Von Hand, Regeln der Rechnung, Stundensätze, Werkbrett',
  ],
  ['/policy/metalPrices/silver_925', 'Policy, metal prices, silver 925', 'Regeln der Rechnung, Metallpreise, silver 925'],
  ['/addedMetalG', 'Metal added', 'Zugefügtes Metall'],
  ['?from', 'From', 'Von'],
  ['', '', ''],
])('%s is %s', (pointer, english, german) => {
  expect([placeInWords(pointer, inEnglish), placeInWords(pointer, inGerman)]).toEqual([english, german]);
});

test.each([
  ['thicknessMm: over 0; it is -1', 'thickness: over 0; it is -1', 'Dicke: over 0; it is -1'],
  ['a sheet has no outsideDiameterMm', 'a sheet has no outside diameter', 'a sheet has no Durchmesser außen'],
  ['secondsToFluxClear of heat 2', 'secondsToFluxClear of heat 2', 'Sekunden, bis das Flussmittel klar ist of heat 2'],
  ['flux.pricePerG: over 0', 'flux, price a gram: over 0', 'Flussmittel, Preis je Gramm: over 0'],
  ['wall-seam.filletMm: over 0', 'wall-seam, fillet: over 0', 'wall-seam, Hohlkehle: over 0'],
  [
    'Ask name@studio.cost about C31-014.2, i.e. soon',
    'Ask name@studio.cost about C31-014.2, i.e. soon',
    'Ask name@studio.cost about C31-014.2, i.e. soon',
  ],
  // What people call their joints stays.
  [
    'Joint wallSeam, there is no field "wallMm" here',
    'Joint wallSeam, there is no field "wallMm" here',
    'Joint wallSeam, there is no field "wallMm" here',
  ],
])('%s', (sentence, english, german) => {
  expect([withFieldsInWords(sentence, inEnglish), withFieldsInWords(sentence, inGerman)]).toEqual([english, german]);
});

test('every field that a request may have has a German name', async () => {
  const { owner } = await startApp();
  const document = await apiDocument(owner);
  const operations = operationsOf(document);
  const names = new Set(operations.flatMap(({ parameters }) => parameters.flatMap(({ name }) => name ?? [])));
  const seen = new Set<Schema>();
  const walk = (schema: Schema | boolean | undefined): void => {
    if (typeof schema !== 'object' || seen.has(schema)) return;
    seen.add(schema);
    if (schema.$ref !== undefined) walk(resolved(schema.$ref, document));
    for (const [name, inner] of Object.entries(schema.properties ?? {})) {
      names.add(name);
      walk(inner);
    }
    for (const inner of [...(schema.anyOf ?? []), ...(schema.oneOf ?? []), ...(schema.prefixItems ?? [])]) walk(inner);
    walk(schema.items);
    walk(schema.additionalProperties);
  };
  for (const { body, form } of operations) {
    walk(body);
    walk(form);
  }
  expect(names.size).toBeGreaterThan(300);
  expect([...names].filter((name) => inGerman(name) === undefined)).toEqual([]);
});

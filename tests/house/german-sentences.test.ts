import { expect, test } from 'vitest';
import { groupBy } from '../../shared/group-by.ts';
import { ROOMS, SAID } from '../../src/web/words/de/said/index.ts';
import { teller } from '../../src/web/words/tell.ts';
import { textsIn } from '../support/sentences-in-source.ts';

/** Where every sentence has German. */
const TOLD = ['shared/**/*.ts', 'src/platform/http/*.ts', 'src/platform/workers/*.ts', 'src/features/**/*.ts'];

/** Where sentences are kept that may be said. */
const SOURCES = ['shared/**/*.ts', 'src/features/**/*.ts', 'src/platform/**/*.ts'];

/** What no page shows as a sentence of the engine or of the server. */
const NOT_SHOWN: readonly (readonly [path: string, reason: string])[] = [
  ['shared/cautions/caution-table.ts', 'told by their ids; when each is shown the page of cautions alone says'],
  ['shared/cautions/cautions-de.ts', 'German'],
  ['shared/lifecycles/', 'conditions and effects of moves stand on the page of roles alone'],
  ['shared/materials/metal-table.ts', 'names and citations stay as their source has them'],
  ['shared/materials/solder-table.ts', 'names and citations stay as their source has them'],
  ['src/platform/http/access-table.ts', 'routes'],
  ['src/platform/http/finer-rules.ts', 'for the page of roles'],
  ['src/platform/http/describe-api.ts', 'for the description of the API'],
  ['src/platform/http/api-document.ts', 'for the description of the API'],
  ['src/platform/http/fences.ts', 'for the description of the API'],
  ['src/platform/http/metrics.ts', 'names of figures for monitoring'],
  ['src/platform/http/page-files.ts', 'headers'],
  ['src/platform/http/event-stream.ts', 'the protocol of events'],
  ['src/platform/http/unread-requests.ts', 'the protocol of HTTP'],
  ['src/features/backups/restore-book.ts', 'said in the terminal'],
  ['src/features/calculations/check.schema.ts', 'for the description of the API'],
  ['src/features/documents/messages/', 'papers have words of their own'],
  ['src/features/documents/bench-sheets.routes.ts', 'for the description of the API'],
  ['src/features/documents/documents.routes.ts', 'for the description of the API'],
  ['src/features/documents/drawings.routes.ts', 'for the description of the API'],
  ['src/features/documents/html-paper.ts', 'how papers look'],
  ['src/features/documents/send-paper.ts', 'headers'],
  ['src/features/exports/', 'what is in the copy, for whoever opens it'],
  ['src/features/imports/imports.routes.ts', 'for the description of the API'],
  ['src/features/labels/label-page.ts', 'how labels look'],
  ['src/features/labels/label-svg.ts', 'how labels look'],
  ['src/features/labels/labels.routes.ts', 'for the description of the API'],
  ['src/features/private-links/client-page.ts', 'words of the client’s page come from the papers'],
  ['src/features/samples/samples.routes.ts', 'for the log'],
  ['src/features/stock/supply-waits.ts', 'names of pools'],
  ['src/features/studio-days/studio-days.routes.ts', 'for the description of the API'],
  ['src/features/system/', 'pages of explanations, in English'],
  ['shared/drawing/', 'fonts and classes; the words of drawings come from the page'],
];

const entries = Object.entries(ROOMS).flatMap(([room, said]) =>
  Object.entries(said).map(([english, german]) => ({ room, english, german })),
);
const tell = teller(SAID, 'de');

test('every sentence that a reader can see has German', () => {
  const texts = textsIn(TOLD).filter(({ at, isSaid }) => isSaid && !NOT_SHOWN.some(([path]) => at.startsWith(path)));
  expect(texts.length).toBeGreaterThan(30);
  const missing = texts.filter(({ template }) => !(template in SAID)).map(({ at, template }) => `${at}: ${template}`);
  expect(missing).toEqual([]);
});

test('every German sentence is said somewhere, and once in the catalogue', () => {
  const texts = new Set(textsIn(SOURCES).flatMap(({ template }) => [template, template.replaceAll('_', ' ')]));
  expect(entries.filter(({ english }) => !texts.has(english)).map(({ room, english }) => `${room}: ${english}`)).toEqual([]);
  const rooms = groupBy(entries, ({ english }) => english);
  expect(
    [...rooms.values()]
      .filter(({ length }) => length > 1)
      .map((twice) => twice.map(({ room, english }) => `${room}: ${english}`)),
  ).toEqual([]);
});

test('every entry, filled with values, is told in its German with those values in it', () => {
  for (const { english, german } of entries) {
    const places = [...new Set([...english.matchAll(/\{(\d+)\}/g)].map(([, at]) => Number(at)))];
    const named = [...new Set([...german.matchAll(/\{(\d+)[},]/g)].map(([, at]) => Number(at)))].toSorted((a, b) => a - b);
    expect(named, german).toEqual(places);
    const told = tell(filled(english, (at) => String(at + 41.5)));
    for (const at of places) expect(told, english).toContain(`${at + 41},5`);
    if (!/, (plural|select),/.test(german)) expect(told, english).toBe(filled(german, (at) => `${at + 41},5`, english));
  }
});

/** Where two places touch in English, a sign parts what stands in them. */
function filled(template: string, value: (at: number) => string, english = template): string {
  return template.replaceAll(
    /\{(\d+)\}/g,
    (place, at: string) => (english.includes(`}${place}`) ? ', ' : '') + value(Number(at)),
  );
}

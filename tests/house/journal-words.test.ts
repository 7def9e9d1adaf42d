import { globSync, readFileSync } from 'node:fs';
import { getTableColumns, is, Table } from 'drizzle-orm';
import { expect, test } from 'vitest';
import * as sums from '../../src/platform/db/now-tables.ts';
import * as tables from '../../src/platform/db/tables.ts';
import { de } from '../../src/web/words/de/index.ts';
import { en } from '../../src/web/words/en/index.ts';

test('everything a line of the journal may be of has a word, in both languages', () => {
  const written = globSync('src/{features,platform}/**/*.ts').flatMap((file) =>
    [...readFileSync(file, 'utf8').matchAll(/writeJournal\([^{]*\{\s*what: '([\w-]+)'/g)].map(([, what]) => what!),
  );
  expect(written.length).toBeGreaterThan(60);
  const keys = [...new Set(written)].map((what) => `journal.what.${what.replaceAll('-', '_')}`);
  expect(keys.filter((key) => !(key in en && key in de))).toEqual([]);
});

test('every column that a line of the journal may hold has a word, in both languages', () => {
  const columns = new Set(
    // What is summed of the ledgers has no lines of its own.
    Object.values(tables).flatMap((table) =>
      is(table, Table) && !Object.values<unknown>(sums).includes(table) ? Object.keys(getTableColumns(table)) : [],
    ),
  );
  expect(columns.size).toBeGreaterThan(200);
  const keys = [...columns].map((column) => `journal.field.${column}`);
  expect(keys.filter((key) => !(key in en && key in de))).toEqual([]);
});

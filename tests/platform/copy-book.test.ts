import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { copyBook } from '../../src/platform/db/copy-book.ts';

/** A book of some thousand pages, with a line for each time it was written. */
function aBook() {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-copy-'));
  const file = join(folder, 'book.sqlite');
  const book = new Database(file);
  onTestFinished(() => {
    book.close();
    rmSync(folder, { recursive: true });
  });
  book.pragma('journal_mode = WAL');
  book.pragma('synchronous = OFF');
  book.exec('CREATE TABLE bulk (bytes BLOB); CREATE TABLE lines (n INTEGER)');
  for (let n = 0; n < 40; n++) book.prepare('INSERT INTO bulk VALUES (randomblob(300000))').run();
  const write = (n: number) => {
    book.prepare('INSERT INTO lines VALUES (?)').run(n);
    book.prepare('UPDATE bulk SET bytes = randomblob(300000) WHERE rowid = ?').run(1 + (n % 40));
  };
  write(0);
  return { file, into: join(folder, 'copy.sqlite'), write };
}

test('a copy of a book that is written all the while ends, whole, with what was there when it was begun', async () => {
  const { file, into, write } = aBook();
  let written = 0;
  const done = await copyBook(file, into, () => {
    write(++written);
    // Begun anew by each of them, it would not come to its end.
    return written > 500;
  });
  expect(done).toBe(true);
  expect(written).toBeGreaterThan(10);
  const copy = new Database(into, { readonly: true });
  expect(copy.pragma('integrity_check', { simple: true })).toBe('ok');
  expect(copy.prepare('SELECT n FROM lines').all()).toEqual([{ n: 0 }]);
  copy.close();
});

test('a copy that nobody wants any more is left off', async () => {
  const { file, into } = aBook();
  let asked = 0;
  expect(await copyBook(file, into, () => ++asked === 3)).toBe(false);
  expect(asked).toBe(3);
});

import { Readable } from 'node:stream';
import type { Database } from 'better-sqlite3';
import { ZipFile } from 'yazl';
import { csvPath, jsonPath, manifestOf, readmeOf, type AboutExport } from './about-export.ts';
import { asCsv, asJson, filesOf, givenTables } from './table-files.ts';

/**
 * A book as a zip of JSON, CSV and files, read and packed as it is sent.
 *
 * @param book a copy of the book that nobody writes
 * @param done the copy is no longer read: the zip has ended, or whoever took it went away
 */
export function writeZip(book: Database, about: AboutExport, done: () => void): Readable {
  const zip = new ZipFile();
  const options = { mtime: new Date(about.exportedAt) };
  const tables = givenTables(about.currency).map((table) => ({
    ...table,
    rows: book.prepare<[], { rows: number }>(`SELECT count(*) AS rows FROM "${table.name}"`).get()!.rows,
  }));
  zip.addBuffer(Buffer.from(readmeOf(about, tables)), 'README.txt', options);
  zip.addBuffer(Buffer.from(manifestOf(about, tables)), 'manifest.json', options);
  let open: Readable | undefined;
  let gone = false;
  const add = (path: string, text: () => Iterable<string | Buffer>) =>
    zip.addReadStreamLazy(path, options, (take) => {
      // Whoever goes away between two files leaves the zip still asking for the next.
      if (gone) return;
      open = Readable.from(text(), { objectMode: false });
      take(null, open);
    });
  for (const table of tables) {
    add(jsonPath(table.name), () => asJson(book, table));
    add(csvPath(table.name), () => asCsv(book, table));
    for (const { path, bytes } of filesOf(book, table)) add(path, () => [bytes()]);
  }
  zip.end();
  const whole = zip.outputStream as Readable;
  zip.on('error', (error) => whole.destroy(error));
  // A table that is half read holds the copy: its query has to end first.
  whole.once('close', () => {
    gone = true;
    if (!open || open.closed) return done();
    open.once('close', done);
    open.destroy();
  });
  return whole;
}

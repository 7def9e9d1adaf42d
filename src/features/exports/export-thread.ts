/** Runs beside the server, so that a large book holds up nobody: copies the book, and sends the copy as a zip, piece by piece. */

import { parentPort, workerData } from 'node:worker_threads';
import Database from 'better-sqlite3';
import { copyBook } from '../../platform/db/copy-book.ts';
import type { AboutExport } from './about-export.ts';
import { writeZip } from './write-zip.ts';

export interface ExportToMake {
  /** Null where the copy is there already. */
  bookFile: string | null;
  copy: string;
  about: Omit<AboutExport, 'schema'>;
}

/** The next piece is asked for, or no more is wanted. */
export type ToExport = 'more' | 'stop';

/** An error loses its kind on the way between threads. */
export type FromExport =
  | { says: 'copied' }
  | { says: 'piece'; bytes: Uint8Array }
  | { says: 'whole' }
  | { says: 'failed'; message: string; code: string | undefined };

const port = parentPort!;
const tell = (message: FromExport) => port.postMessage(message);
const { bookFile, copy, about } = workerData as ExportToMake;
let isStopped = false;
const stop = (asked: ToExport) => (isStopped ||= asked === 'stop');
port.on('message', stop);
try {
  if (bookFile !== null) await copyBook(bookFile, copy, () => isStopped);
  if (isStopped) port.close();
  else send();
} catch (error) {
  fail(error as Error);
}

function send(): void {
  const book = new Database(copy, { readonly: true });
  const { name: schema } = book
    .prepare<[], { name: string }>('SELECT name FROM schema_migrations ORDER BY name DESC LIMIT 1')
    .get()!;
  const zip = writeZip(book, { ...about, schema }, () => {
    book.close();
    port.close();
  });
  zip.on('data', (bytes: Buffer) => {
    zip.pause();
    tell({ says: 'piece', bytes });
  });
  zip.once('end', () => tell({ says: 'whole' }));
  zip.once('error', fail);
  zip.pause();
  port.on('message', (asked: ToExport) => (asked === 'more' ? zip.resume() : zip.destroy()));
  tell({ says: 'copied' });
}

function fail(error: Error): void {
  tell({ says: 'failed', message: error.message, code: (error as { code?: string }).code });
  port.close();
}

import { createReadStream, createWriteStream } from 'node:fs';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { Decrypter } from 'age-encryption';
import Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { readMigrations } from '../../platform/db/migrate.ts';
import { systemClock } from '../../platform/clock.ts';
import { createStockService } from '../stock/index.ts';

/** Opens an encrypted copy of a book into a file. @throws if the key is another's, or a byte of it was changed */
export async function openBackup(file: string, identity: string, into: string): Promise<void> {
  const decrypter = new Decrypter();
  decrypter.addIdentity(identity);
  const opened = await decrypter.decrypt(Readable.toWeb(createReadStream(file)) as ReadableStream<Uint8Array>);
  await pipeline(Readable.fromWeb(opened as never), createWriteStream(into, { mode: 0o600 }));
}

/**
 * What is wrong with a file that should be a whole book, null if nothing is: its pages and indexes, rows that point nowhere, a
 * schema this program does not know, a stock that does not add up.
 */
export function faultOfBook(file: string): string | null {
  const book = new Database(file, { readonly: true, fileMustExist: true });
  try {
    const pages = book.pragma('integrity_check', { simple: true });
    if (pages !== 'ok') return `its pages are damaged: ${String(pages).split('\n')[0]}`;
    const broken = (book.pragma('foreign_key_check') as unknown[]).length;
    if (broken > 0) return `${broken} of its rows point nowhere`;
    const known = new Set(readMigrations().map(({ name }) => name));
    const applied = book.prepare<[], { name: string }>('SELECT name FROM schema_migrations').all();
    const newer = applied.find(({ name }) => !known.has(name));
    if (applied.length === 0) return 'it is not a book of Hearthbook';
    if (newer) return `it was written by a newer Hearthbook (${newer.name})`;
    if (applied.length < known.size) return null;
    const { findings } = createStockService({ db: drizzle(book), clock: systemClock }).audit();
    return findings.length === 0 ? null : `its stock does not add up: ${findings[0]!.says}`;
  } catch (error) {
    if (error instanceof Database.SqliteError) return `it cannot be read as a book: ${error.message}`;
    throw error;
  } finally {
    book.close();
  }
}

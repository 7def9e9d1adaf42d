import { copyFileSync, existsSync, mkdirSync, renameSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { migrate } from '../../platform/db/migrate.ts';
import { bookFromExport } from '../exports/index.ts';
import { flushFolder } from '../../platform/whole-file.ts';
import { keepIdentity, keyFile } from './backup-key.ts';
import { removeCopy } from './book-file.ts';
import { inWords } from './disk-words.ts';
import { faultOfBook, openBackup } from './open-backup.ts';

/** The key beside a book, if it has one. */
export function keyBeside(book: string): string | null {
  const file = keyFile(book);
  return existsSync(file) ? file : null;
}

interface ToRestore {
  /** An encrypted backup (.age), an export (.zip), or an SQLite file that was copied. */
  file: string;
  /** Opens a backup; null for the others. */
  identity: string | null;
  book: string;
  at: Date;
}

/**
 * Puts a book back in its place: opened aside and read through first; the one that is there is kept beside it. Sessions and tokens
 * that were in it are gone, so that what was revoked since stays revoked.
 *
 * @returns where the one that was there is now, and how people get in
 * @throws in words, and then nothing was changed
 */
export async function restoreBook({
  file,
  identity,
  book,
  at,
}: ToRestore): Promise<{ before: string | null; signInAgain: string }> {
  mkdirSync(dirname(book), { recursive: true, mode: 0o700 });
  holdClosed(book);
  const opened = `${book}.restored`;
  removeCopy(opened);
  try {
    if (file.endsWith('.zip')) await bookFromExport(file, opened, at);
    else if (identity === null) copyFileSync(file, opened);
    else
      await openBackup(file, identity, opened).catch((error: unknown) =>
        Promise.reject(new Error(`The backup cannot be opened: ${inWords(error)}`)),
      );
    const fault = faultOfBook(opened);
    if (fault !== null) throw new Error(`This backup cannot be used: ${fault}.`);
    bringUpToDate(opened, at);
    const before = setAside(book, at);
    renameSync(opened, book);
    flushFolder(dirname(book));
    if (identity !== null && keyBeside(book) === null) keepIdentity(book, identity);
    const signInAgain = file.endsWith('.zip')
      ? 'An export has no passwords: start the server, and let an owner in by npm run reset-owner.'
      : 'Start the server; everybody signs in again, and tokens are made anew.';
    return { before, signInAgain };
  } finally {
    removeCopy(opened);
  }
}

/** A server that runs holds the file: SQLite lets nobody else have it alone. */
function holdClosed(book: string): void {
  if (!existsSync(book)) return;
  const there = new Database(book, { timeout: 0 });
  try {
    there.pragma('locking_mode = EXCLUSIVE');
    there.exec('BEGIN EXCLUSIVE');
    there.exec('COMMIT');
  } catch (error) {
    if ((error as { code?: string }).code?.startsWith('SQLITE_BUSY'))
      throw new Error('The server still runs on this book: stop it first.', { cause: error });
    // A book that is damaged is why somebody is here.
  } finally {
    there.close();
  }
}

function bringUpToDate(file: string, at: Date): void {
  const book = new Database(file);
  try {
    migrate(book, at);
    book.exec('DELETE FROM sessions; DELETE FROM tokens; DELETE FROM one_time_codes;');
    book.pragma('journal_mode = DELETE');
  } finally {
    book.close();
  }
}

/** With what SQLite may still have beside it: a book and its log of writes belong together. */
function setAside(book: string, at: Date): string | null {
  if (!existsSync(book)) return null;
  const before = `${book}.before-${at.toISOString().replaceAll(/[-:]|\.\d+/g, '')}`;
  for (const part of ['-wal', '-shm', '']) if (existsSync(book + part)) renameSync(book + part, before + part);
  return before;
}

import { mkdirSync, renameSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import Database, { type RunResult } from 'better-sqlite3';
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import type { BaseSQLiteDatabase } from 'drizzle-orm/sqlite-core';
import { keepStatements } from './kept-statements.ts';
import { lastApplied, migrate, readMigrations } from './migrate.ts';
import { whyNotOpened } from './book-fault.ts';

/** The database or an open transaction: every query takes one as its first argument, so that it stays inside its transaction. */
export type Db = BaseSQLiteDatabase<'sync', RunResult>;

export interface OpenDb {
  db: BetterSQLite3Database & { $client: Database.Database };
  close: () => void;
}

/**
 * Opens the book and brings its schema up to date.
 *
 * @param file path of the SQLite file, or ':memory:'
 * @throws in words, when the file cannot be opened, is damaged or no book, or was written by a newer program; it is left as it is
 */
export function openDb(file: string, at: Date): OpenDb {
  try {
    if (file !== ':memory:') mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
    const sqlite = new Database(file);
    if (file !== ':memory:') {
      holdWritable(sqlite);
      keepBeforeUpdate(sqlite, file);
    }
    return ready(sqlite, at);
  } catch (error) {
    throw new Error(`Cannot open the book ${file}: ${whyNotOpened(error as Error)}`, { cause: error });
  }
}

/**
 * Opens a book in memory alone.
 *
 * @param book as SQLite serializes one that was in memory too
 */
export function openBook(book: Buffer, at: Date): OpenDb {
  return ready(new Database(book), at);
}

function ready(sqlite: Database.Database, at: Date): OpenDb {
  sqlite.pragma('journal_mode = WAL');
  // FULL: what was acknowledged survives a power cut.
  sqlite.pragma('synchronous = FULL');
  sqlite.pragma('busy_timeout = 5000');
  // What is taken out of the book is gone from its file too.
  sqlite.pragma('secure_delete = ON');
  const before = lastApplied(sqlite);
  migrate(sqlite, at);
  // What was taken out before that was so is left behind by writing the file anew, once.
  if (before !== null && before < '0029') sqlite.exec('VACUUM');
  sqlite.pragma('foreign_keys = ON');
  keepStatements(sqlite);
  return { db: drizzle(sqlite), close: () => sqlite.close() };
}

/** SQLite opens for reading what it may not write, and then stays so: a server on it would never write again, whatever became of the disk. */
function holdWritable(sqlite: Database.Database): void {
  // Undone before anything of it is on the disk, so that a full one does not matter.
  sqlite.exec('BEGIN; CREATE TABLE not_kept (a); ROLLBACK');
}

/** The way back from an update: the book as it was before, beside it, until the next one. */
function keepBeforeUpdate(sqlite: Database.Database, file: string): void {
  const migrations = readMigrations();
  const last = lastApplied(sqlite);
  if (last === null || last === migrations.at(-1)?.name || !migrations.some(({ name }) => name === last)) return;
  const kept = `${file}.before-update`;
  rmSync(`${kept}.new`, { force: true });
  sqlite.prepare('VACUUM INTO ?').run(`${kept}.new`);
  renameSync(`${kept}.new`, kept);
}

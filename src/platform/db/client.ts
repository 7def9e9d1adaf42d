import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Database, { type RunResult } from 'better-sqlite3';
import { drizzle, type BetterSQLite3Database } from 'drizzle-orm/better-sqlite3';
import type { BaseSQLiteDatabase } from 'drizzle-orm/sqlite-core';
import { migrate } from './migrate.ts';
import * as tables from './tables.ts';

/** The database or an open transaction: every query takes one as its first argument, so that it stays inside its transaction. */
export type Db = BaseSQLiteDatabase<'sync', RunResult, typeof tables>;

export interface OpenDb {
  db: BetterSQLite3Database<typeof tables>;
  close: () => void;
}

/**
 * Opens the book and brings its schema up to date.
 *
 * @param file path of the SQLite file, or ':memory:'
 */
export function openDb(file: string, at: Date): OpenDb {
  if (file !== ':memory:') mkdirSync(dirname(file), { recursive: true });
  const sqlite = new Database(file);
  sqlite.pragma('journal_mode = WAL');
  // FULL: what was acknowledged survives a power cut.
  sqlite.pragma('synchronous = FULL');
  sqlite.pragma('busy_timeout = 5000');
  migrate(sqlite, at);
  sqlite.pragma('foreign_keys = ON');
  return { db: drizzle(sqlite, { schema: tables }), close: () => sqlite.close() };
}

import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import type { Database } from 'better-sqlite3';

const MIGRATIONS = new URL('../../../migrations/', import.meta.url);

export interface Migration {
  name: string;
  sql: string;
}

/** The migrations that come with this program, oldest first. */
export function readMigrations(folder: URL = MIGRATIONS): Migration[] {
  return readdirSync(folder)
    .filter((name) => /^\d{4}_\w+\.sql$/.test(name))
    .sort()
    .map((name) => ({ name, sql: readFileSync(new URL(name, folder), 'utf8') }));
}

/**
 * Applies the migrations that are missing, each in a transaction of its own.
 *
 * Foreign keys are off while it runs: inside a transaction the pragma does nothing, and a table rebuilt with keys on
 * empties its child tables in silence. They are checked inside instead, before the commit.
 *
 * @throws if an applied migration was edited since, or the file was written by a newer program
 */
export function migrate(sqlite: Database, at: Date, migrations: Migration[] = readMigrations()): void {
  sqlite.exec(
    'CREATE TABLE IF NOT EXISTS schema_migrations (name TEXT PRIMARY KEY, sha256 TEXT NOT NULL, applied_at TEXT NOT NULL) STRICT',
  );
  const rows = sqlite.prepare<[], { name: string; sha256: string }>('SELECT name, sha256 FROM schema_migrations').all();
  const applied = new Map(rows.map((row) => [row.name, row.sha256]));
  const known = new Map(migrations.map((migration) => [migration.name, sha256(migration.sql)]));
  for (const [name, hash] of applied) {
    if (!known.has(name)) throw new Error(`it was written by a newer Hearthbook (${name}); update this one`);
    if (known.get(name) !== hash) throw new Error(`migration ${name} was changed after it was applied`);
  }
  sqlite.pragma('foreign_keys = OFF');
  const apply = sqlite.transaction(({ name, sql }: Migration) => {
    sqlite.exec(sql);
    const broken = sqlite.pragma('foreign_key_check') as unknown[];
    if (broken.length > 0) throw new Error(`Migration ${name} leaves ${broken.length} rows that point nowhere`);
    sqlite.prepare('INSERT INTO schema_migrations VALUES (?, ?, ?)').run(name, sha256(sql), at.toISOString());
  });
  for (const migration of migrations) if (!applied.has(migration.name)) apply.immediate(migration);
}

/** The last migration a book has had; null for a new one. */
export function lastApplied(sqlite: Database): string | null {
  const isBook = sqlite.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'schema_migrations'").get();
  if (!isBook) return null;
  return sqlite.prepare<[], { name: string | null }>('SELECT max(name) AS name FROM schema_migrations').get()!.name;
}

function sha256(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

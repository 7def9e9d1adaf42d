import { sql } from 'drizzle-orm';
import type { TestApp } from './start-app.ts';

/**
 * Counts the rows that are written in each table and stay written: what a transaction takes back is taken back here as well.
 *
 * @returns how often a row of each table was inserted, changed or deleted since
 */
export function committedWrites({ db }: Pick<TestApp, 'db'>): () => Record<string, number> {
  // Those of the search follow from the others, and have no triggers.
  const tables = db.all<{ name: string }>(
    sql`SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%'`,
  );
  db.run(sql`CREATE TEMP TABLE committed_writes (name TEXT PRIMARY KEY, count INTEGER NOT NULL) STRICT`);
  for (const { name } of tables) {
    db.run(sql`INSERT INTO committed_writes VALUES (${name}, 0)`);
    for (const done of ['INSERT', 'UPDATE', 'DELETE']) {
      const counted = `UPDATE committed_writes SET count = count + 1 WHERE name = '${name}'`;
      db.run(sql.raw(`CREATE TEMP TRIGGER "${name} ${done}" AFTER ${done} ON main."${name}" BEGIN ${counted}; END`));
    }
  }
  return () => {
    const rows = db.all<{ name: string; count: number }>(sql`SELECT name, count FROM committed_writes WHERE count > 0`);
    return Object.fromEntries(rows.map(({ name, count }) => [name, count]));
  };
}

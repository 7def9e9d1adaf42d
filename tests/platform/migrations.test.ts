import Database from 'better-sqlite3';
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core';
import { is } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { migrate, readMigrations } from '../../src/platform/db/migrate.ts';
import * as tables from '../../src/platform/db/tables.ts';

const at = new Date('2031-05-05T08:00:00Z');

interface ColumnInfo {
  name: string;
  type: string;
  notnull: number;
  pk: number;
}

test('the tables in code are the tables that the migrations make', () => {
  const sqlite = new Database(':memory:');
  migrate(sqlite, at);
  const made = sqlite
    .prepare<[], { name: string }>("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .all();
  const inCode = Object.values(tables as Record<string, unknown>)
    .filter((table): table is SQLiteTable => is(table, SQLiteTable))
    .map((table) => getTableConfig(table));
  expect(inCode.map(({ name }) => name).sort()).toEqual(
    made
      .map(({ name }) => name)
      // An index of trigrams is a virtual table with tables of its own.
      .filter((name) => name !== 'schema_migrations' && !name.startsWith('searchable_words'))
      .sort(),
  );
  expect(inCode.length).toBeGreaterThan(10);
  for (const { name, columns, primaryKeys } of inCode) {
    const keys = new Set([
      ...columns.filter(({ primary }) => primary).map((column) => column.name),
      ...primaryKeys.flatMap((key) => key.columns.map((column) => column.name)),
    ]);
    const wanted = columns.map((column) => ({
      name: column.name,
      type: column.getSQLType().toUpperCase(),
      notNull: column.notNull || keys.has(column.name),
      key: keys.has(column.name),
    }));
    const found = (sqlite.pragma(`table_info(${name})`) as ColumnInfo[]).map((column) => ({
      name: column.name,
      type: column.type,
      notNull: column.notnull === 1 || column.pk > 0,
      key: column.pk > 0,
    }));
    expect({ name, columns: wanted }).toEqual({ name, columns: found });
  }
});

/** Tables that grow with the work, with the filters that their lists take. */
const FILTERS: Readonly<Record<string, readonly string[]>> = {
  commissions: ['state', 'client_id', 'kind'],
  client_letters: ['commission_id'],
  pieces: ['commission_id', 'state'],
  plans: ['piece_id'],
  plan_searches: ['piece_id', 'person_id', 'state'],
  heats: ['piece_id', 'plan_id', 'state'],
  incidents: ['piece_id', 'state'],
  solder_lots: ['product_id', 'state'],
  stock_movements: ['lot_id', 'product_id', 'piece_id'],
  quotes: ['commission_id', 'state'],
  payments: ['commission_id', 'state'],
  bench_times: ['person_id', 'piece_id', 'state'],
  calibrations: ['person_id', 'torch_id'],
  journal: ['thing_id', 'what'],
};

test('every list goes by an index for each filter it takes', () => {
  const sqlite = new Database(':memory:');
  migrate(sqlite, at);
  const plans = Object.entries(FILTERS).flatMap(([table, columns]) =>
    columns.map((column) => {
      const order = table === 'journal' ? 'seq' : 'id';
      const query = `EXPLAIN QUERY PLAN SELECT * FROM ${table} WHERE ${column} = ? ORDER BY ${order} DESC LIMIT 51`;
      const [step] = sqlite.prepare<[string], { detail: string }>(query).all('x');
      return [`${table}.${column}`, step!.detail];
    }),
  );
  for (const [filter, detail] of plans)
    expect([filter, detail]).toEqual([filter, expect.stringMatching(/^SEARCH .* USING INDEX/)]);
});

test('migrate() applies each file once and keeps its hash', () => {
  const sqlite = new Database(':memory:');
  migrate(sqlite, at);
  migrate(sqlite, at);
  const applied = sqlite.prepare<[], { name: string }>('SELECT name FROM schema_migrations').all();
  expect(applied.map(({ name }) => name)).toEqual(readMigrations().map(({ name }) => name));
});

test('migrate() refuses a book of a newer program, and a migration edited after it was applied', () => {
  const sqlite = new Database(':memory:');
  migrate(sqlite, at, [{ name: '0001_a.sql', sql: 'CREATE TABLE a (id TEXT) STRICT' }]);
  expect(() => migrate(sqlite, at, [])).toThrow('written by a newer Hearthbook');
  expect(() => migrate(sqlite, at, [{ name: '0001_a.sql', sql: 'CREATE TABLE b (id TEXT) STRICT' }])).toThrow(
    'changed after it was applied',
  );
});

test('migrate() keeps child rows when a table is rebuilt, and undoes a file that leaves rows pointing nowhere', () => {
  const sqlite = new Database(':memory:');
  const first = {
    name: '0001_a.sql',
    sql: 'CREATE TABLE a (id TEXT PRIMARY KEY) STRICT; CREATE TABLE b (a_id TEXT REFERENCES a (id) ON DELETE CASCADE) STRICT;',
  };
  migrate(sqlite, at, [first]);
  sqlite.pragma('foreign_keys = ON');
  sqlite.exec("INSERT INTO a VALUES ('x'); INSERT INTO b VALUES ('x')");
  const rebuild = {
    name: '0002_b.sql',
    sql: 'CREATE TABLE a2 (id TEXT PRIMARY KEY, n INTEGER) STRICT; INSERT INTO a2 (id) SELECT id FROM a; DROP TABLE a; ALTER TABLE a2 RENAME TO a;',
  };
  migrate(sqlite, at, [first, rebuild]);
  expect(sqlite.prepare('SELECT a_id FROM b').all()).toEqual([{ a_id: 'x' }]);
  const lose = { name: '0003_c.sql', sql: 'DELETE FROM a' };
  expect(() => migrate(sqlite, at, [first, rebuild, lose])).toThrow('leaves 1 rows that point nowhere');
  expect(sqlite.prepare('SELECT id FROM a').all()).toEqual([{ id: 'x' }]);
});

test('migrate() brings a book of the first schema up to date, and its heats with it', () => {
  const sqlite = new Database(':memory:');
  const [first] = readMigrations();
  migrate(sqlite, at, [first!]);
  const day = `'2031-05-05T08:00:00Z'`;
  sqlite.exec(`
    INSERT INTO people (id, name, roles, created_at) VALUES ('p', 'Basalt', '["bench"]', ${day});
    INSERT INTO commissions (id, number, title, kind, quantity, state, state_since, created_at)
      VALUES ('c', 'C31-001', 'Ring', 'own_stock', 1, 'shaping', ${day}, ${day});
    INSERT INTO pieces (id, number, commission_id, serial, title, metal, state, whereabouts, created_at)
      VALUES ('r', 'C31-001.1', 'c', 1, 'Ring', 'sterling-925', 'soldering', 'bench', ${day});
    INSERT INTO designs (id, piece_id, number, body, made_by, created_at) VALUES ('d', 'r', 1, '{}', 'p', ${day});
    INSERT INTO plans (id, piece_id, number, state, design_id, origin, body, bench, solders, made_by, created_at)
      VALUES ('v', 'r', 1, 'in_use', 'd', 'by_hand', '{}', '{"torch":"medium","support":"brick"}', '[]', 'p', ${day});
    INSERT INTO heats (id, piece_id, plan_id, number, position, joints, purpose, planned_tenth_mg, state, seen, created_at)
      VALUES ('h', 'r', 'v', 1, 1, '["seam"]', 'solder', 12, 'cleared', 'ran bright', ${day})`);
  migrate(sqlite, at);
  expect(sqlite.prepare('SELECT id, plan_id, seen, observed FROM heats').all()).toEqual([
    { id: 'h', plan_id: 'v', seen: 'ran bright', observed: null },
  ]);
  expect(sqlite.prepare('SELECT count(*) AS torches FROM torches').get()).toEqual({ torches: 0 });
});

import { and, desc, eq, getTableColumns, lt, sql, type SQL } from 'drizzle-orm';
import type { SQLiteColumn, SQLiteTable } from 'drizzle-orm/sqlite-core';
import type { Page } from '../http/paging.ts';
import type { Db } from './client.ts';
import { prepared } from './prepared.ts';

/** A table whose rows have an id of their own. */
type WithIds = SQLiteTable & { id: SQLiteColumn };
type Values = Record<string, unknown>;
type Kept = (db: Db) => { get: (values: Values) => unknown; all: (values: Values) => unknown[] };

const of = (name: string) => sql`${sql.placeholder(name)}`;
/** Values that are no field's: no field has a space in its name. */
const [ID, CURSOR, LIMIT] = ['the id', 'the cursor', 'the limit'];
/** Of a table: there are as many ways to change a row as there are choices of its fields. */
const MOST_EACH = 40;
const all = new Map<SQLiteTable, Map<string, Kept>>();

/** One row by its id. */
export function rowById<Table extends WithIds>(db: Db, table: Table, id: string): Table['$inferSelect'] | undefined {
  const select = kept(table, 'by id', (book) =>
    book
      .select()
      .from(table as WithIds)
      .where(eq(table.id, of('id')))
      .prepare(),
  );
  return select(db).get({ id }) as Table['$inferSelect'] | undefined;
}

/**
 * A page of a table, newest first, and one row more.
 *
 * @param having what the rows have in common; undefined leaves a field open
 */
export function newestRows<Table extends WithIds>(
  db: Db,
  table: Table,
  { limit, cursor }: Page,
  having: { [Field in keyof Table['$inferSelect']]?: unknown } = {},
): Table['$inferSelect'][] {
  const common = withoutOpen(having);
  const columns = getTableColumns(table);
  const select = kept(table, `newest ${cursor === undefined ? '' : 'after '}${Object.keys(common).join()}`, (book) =>
    book
      .select()
      .from(table as WithIds)
      .where(
        and(
          cursor === undefined ? undefined : lt(table.id, of(CURSOR)),
          ...Object.keys(common).map((name) => eq(columns[name]!, of(name))),
        ),
      )
      .orderBy(desc(table.id))
      .limit(sql.placeholder(LIMIT))
      .prepare(),
  );
  return select(db).all({ ...asWritten(table, common), [CURSOR]: cursor, [LIMIT]: limit + 1 }) as Table['$inferSelect'][];
}

/** Writes one row. @returns how it is in the book then */
export function insertRow<Table extends SQLiteTable>(db: Db, table: Table, row: Table['$inferInsert']): Table['$inferSelect'] {
  const columns = getTableColumns(table);
  const values: Values = {};
  for (const [name, column] of Object.entries(columns)) {
    const given = (row as Values)[name];
    values[name] = given === undefined ? (column.default ?? null) : given;
  }
  const insert = kept(table, 'insert', (book) =>
    book
      .insert(table)
      .values(Object.fromEntries(Object.keys(columns).map((name) => [name, of(name)])) as never)
      .returning()
      .prepare(),
  );
  return insert(db).get(asWritten(table, values)) as Table['$inferSelect'];
}

/** Changes some fields of one row. @returns how it is in the book then */
export function updateRow<Table extends WithIds>(
  db: Db,
  table: Table,
  id: string,
  change: Partial<Table['$inferSelect']>,
): Table['$inferSelect'] {
  return changed(db, table, id, { change, also: {} }) as Table['$inferSelect'];
}

/** As {@link updateRow}, and counts its version up. */
export function updateVersion<Table extends WithIds & { version: SQLiteColumn }>(
  db: Db,
  table: Table,
  id: string,
  change: Partial<Table['$inferSelect']>,
): Table['$inferSelect'] {
  return changed(db, table, id, { change, also: { version: sql`${table.version} + 1` } }) as Table['$inferSelect'];
}

function changed(db: Db, table: WithIds, id: string, { change, also }: { change: Values; also: Record<string, SQL> }): unknown {
  const columns = getTableColumns(table);
  const given = Object.fromEntries(Object.entries(withoutOpen(change)).filter(([name]) => name in columns));
  const names = Object.keys(given);
  const update = kept(table, `change ${[...names, '+', ...Object.keys(also)].join()}`, (book) =>
    book
      .update(table)
      .set({ ...Object.fromEntries(names.map((name) => [name, of(name)])), ...also })
      .where(eq(table.id, of(ID)))
      .returning()
      .prepare(),
  );
  return update(db).get({ ...asWritten(table, given), [ID]: id });
}

/** A statement of a table is put together once for each open book: see {@link prepared}. */
function kept(table: SQLiteTable, what: string, build: (db: Db) => unknown): Kept {
  let ofTable = all.get(table);
  if (!ofTable) all.set(table, (ofTable = new Map<string, Kept>()));
  let statement = ofTable.get(what);
  if (!statement) ofTable.set(what, (statement = prepared(build as (db: Db) => ReturnType<Kept>)));
  if (ofTable.size > MOST_EACH) ofTable.delete(ofTable.keys().next().value!);
  return statement;
}

function asWritten(table: SQLiteTable, values: Values): Values {
  const columns = getTableColumns(table);
  return Object.fromEntries(
    Object.entries(values).map(([name, value]) => [name, value === null ? null : columns[name]!.mapToDriverValue(value)]),
  );
}

const withoutOpen = (values: Values): Values =>
  Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));

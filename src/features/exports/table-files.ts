import type { Database } from 'better-sqlite3';
import { getTableColumns, getTableName, is, type Column } from 'drizzle-orm';
import { SQLiteTable } from 'drizzle-orm/sqlite-core';
import * as tables from '../../platform/db/tables.ts';
import { csvLine } from '../../platform/http/csv.ts';
import { columnUnit } from './column-unit.ts';
import { GIVEN } from './told-tables.ts';

/** How a column is kept: json is an object or list, file the bytes of one. */
type ColumnKind = 'text' | 'integer' | 'number' | 'yes_no' | 'json' | 'file';

interface GivenColumn {
  /** Its name in JSON. */
  json: string;
  /** Its name in the book. */
  name: string;
  /** Its header in CSV. */
  csv: string;
  kind: ColumnKind;
  unit: string | null;
}

export interface GivenTable {
  name: string;
  holds: string;
  columns: GivenColumn[];
  key: string[];
}

/** A row as the database has it. */
type Row = Record<string, unknown>;

/** As much at a time. */
const CHUNK_ROWS = 200;

/** The tables an export gives, in the order of the program, without the columns that nobody is given. */
export function givenTables(currency: string): GivenTable[] {
  return Object.values(tables).flatMap((table): GivenTable[] => {
    if (!is(table, SQLiteTable)) return [];
    const name = getTableName(table);
    const told = GIVEN[name];
    if (!told) return [];
    const columns = Object.entries(getTableColumns(table) as Record<string, Column>)
      .filter(([, column]) => !told.without?.includes(column.name))
      .map(([json, column]): GivenColumn => {
        const unit = columnUnit(column.name, currency);
        const csv = column.name.endsWith('_minor') ? `${column.name}_${currency}` : column.name;
        return { json, name: column.name, csv, kind: kindOf(column), unit };
      });
    return [{ name, holds: told.holds, columns, key: keyOf(columns) }];
  });
}

function kindOf({ columnType }: Column): ColumnKind {
  const kinds: Readonly<Record<string, ColumnKind>> = {
    SQLiteText: 'text',
    SQLiteInteger: 'integer',
    SQLiteReal: 'number',
    SQLiteBoolean: 'yes_no',
    SQLiteTextJson: 'json',
    SQLiteBlobBuffer: 'file',
  };
  const kind = kinds[columnType];
  if (!kind) throw new Error(`An export does not know how to write a column of ${columnType}`);
  return kind;
}

/** What names a file of a row: its text and number columns that hold ids and sizes. */
function keyOf(columns: readonly GivenColumn[]): string[] {
  return columns.filter(({ name }) => /^(id|\w+_id|size)$/.test(name) && !/person/.test(name)).map(({ name }) => name);
}

/** A table as JSON: a list of objects, in the order they were written. */
export function* asJson(book: Database, table: GivenTable): Generator<string> {
  yield '[';
  let between = '\n';
  for (const rows of chunksOf(book, table)) {
    const lines = rows.map((row) =>
      JSON.stringify(Object.fromEntries(table.columns.map((one) => [one.json, valueOf(one, row, table)]))),
    );
    yield between + lines.join(',\n');
    between = ',\n';
  }
  yield '\n]\n';
}

/** The same as CSV (RFC 4180); objects and lists in it are JSON. */
export function* asCsv(book: Database, table: GivenTable): Generator<string> {
  yield csvLine(table.columns.map(({ csv }) => csv));
  for (const rows of chunksOf(book, table))
    yield rows.map((row) => csvLine(table.columns.map((one) => cellOf(one, valueOf(one, row, table))))).join('');
}

/** The files in a table, each by its place in the export. */
export function* filesOf(book: Database, table: GivenTable): Generator<{ path: string; bytes: () => Buffer }> {
  const files = table.columns.filter(({ kind }) => kind === 'file');
  if (files.length === 0) return;
  const rowids = book.prepare<[], { rowid: number }>(`SELECT rowid FROM "${table.name}" ORDER BY rowid`).all();
  for (const { rowid } of rowids) {
    for (const column of files) {
      const row = () => book.prepare<[number], Row>(`SELECT * FROM "${table.name}" WHERE rowid = ?`).get(rowid)!;
      const path = valueOf(column, row(), table);
      if (typeof path === 'string') yield { path, bytes: () => row()[column.name] as Buffer };
    }
  }
}

function* chunksOf(book: Database, table: GivenTable): Generator<Row[]> {
  const rows = book.prepare<[], Row>(`SELECT * FROM "${table.name}" ORDER BY rowid`).iterate();
  let chunk: Row[] = [];
  for (const row of rows) {
    chunk.push(row);
    if (chunk.length < CHUNK_ROWS) continue;
    yield chunk;
    chunk = [];
  }
  if (chunk.length > 0) yield chunk;
}

function valueOf({ name, kind }: GivenColumn, row: Row, table: GivenTable): unknown {
  const value = row[name];
  if (value === null || value === undefined) return null;
  if (kind === 'yes_no') return value === 1;
  if (kind === 'json') return JSON.parse(value as string);
  if (kind === 'file') return filePath(table, row, value as Buffer);
  return value;
}

function filePath(table: GivenTable, row: Row, bytes: Buffer): string {
  const called = table.key.map((name) => String(row[name]).replaceAll(/[^\w-]/g, '_')).join('-');
  return `files/${table.name}/${called}.${endingOf(bytes)}`;
}

/** By the first bytes. */
function endingOf(bytes: Buffer): string {
  const first = bytes.subarray(0, 12).toString('latin1');
  if (first.startsWith('\xff\xd8\xff')) return 'jpg';
  if (first.startsWith('\x89PNG')) return 'png';
  if (first.startsWith('%PDF')) return 'pdf';
  if (first.startsWith('RIFF') && first.endsWith('WEBP')) return 'webp';
  return 'bin';
}

function cellOf({ kind }: GivenColumn, value: unknown): string | number | null {
  if (value === null) return null;
  if (kind === 'json') return JSON.stringify(value);
  if (kind === 'yes_no') return value ? 'yes' : 'no';
  return value as string | number;
}

import Database, { type Database as Book, type Statement } from 'better-sqlite3';
import { migrate, readMigrations } from '../../platform/db/migrate.ts';
import { FORMAT_VERSION, type Manifest, type ManifestTable } from './about-export.ts';
import { readZip, type ReadZip } from './read-zip.ts';

/**
 * Makes a book of an export of everything. Its tables are made as they were when it was written, filled, and then brought up to date.
 * What opens doors is in no export: nobody has a password in it, and private links open nothing.
 *
 * @param into a file that is not there yet
 * @throws in words, when it is no export, of a newer program, or damaged
 */
export async function bookFromExport(file: string, into: string, at: Date): Promise<void> {
  const zip = await readZip(file);
  const book = new Database(into);
  try {
    const { tables, schema } = readManifest((await zip.bytes('manifest.json')).toString('utf8'));
    const known = readMigrations();
    const last = known.findIndex(({ name }) => name === schema);
    if (last === -1) throw new Error(`The export was written by a newer Hearthbook (${schema}); update this one.`);
    migrate(book, at, known.slice(0, last + 1));
    book.pragma('foreign_keys = OFF');
    book.exec('BEGIN');
    for (const table of tables) await fill(book, table, zip);
    const broken = (book.pragma('foreign_key_check') as unknown[]).length;
    if (broken > 0) throw new Error(`${broken} rows of the export point nowhere.`);
    book.exec('COMMIT');
    migrate(book, at);
  } finally {
    book.close();
    zip.close();
  }
}

function readManifest(text: string): Manifest {
  const { format, formatVersion, ...rest } = JSON.parse(text) as Manifest;
  if (format !== 'hearthbook-export') throw new Error('This zip is no export of Hearthbook.');
  if (formatVersion > FORMAT_VERSION)
    throw new Error(`The export is of format ${formatVersion}; this program reads ${FORMAT_VERSION}.`);
  return { format, formatVersion, ...rest };
}

async function fill(book: Book, { name, json, rows, columns }: ManifestTable, zip: ReadZip): Promise<void> {
  const insert = insertInto(book, name, columns);
  let seen = 0;
  for await (const line of zip.lines(json)) {
    const text = line.replace(/,$/, '');
    if (text === '[' || text === ']' || text === '') continue;
    const row = JSON.parse(text) as Record<string, unknown>;
    const values: unknown[] = [];
    for (const { json: key, kind } of columns) {
      const value = row[key] ?? null;
      values.push(kind === 'file' && value !== null ? await zip.bytes(value as string) : asKept(value, kind));
    }
    insert.run(...values);
    seen++;
  }
  if (seen !== rows) throw new Error(`${json} has ${seen} rows, and should have ${rows}.`);
}

/** A column that no export gives and that must hold something gets what opens nothing. */
function insertInto(book: Book, name: string, columns: ManifestTable['columns']): Statement {
  const there = book.pragma(`table_info("${name}")`) as { name: string; notnull: number; dflt_value: unknown; pk: number }[];
  const given = columns.map(({ csv }) => csv.replace(/_minor_[A-Z]{3}$/, '_minor'));
  const unknown = given.find((column) => !there.some((one) => one.name === column));
  if (there.length === 0 || unknown) throw new Error(`The export has ${name}${unknown ? `.${unknown}` : ''}, which no book has.`);
  const closed = there.filter((one) => one.notnull === 1 && one.dflt_value === null && one.pk === 0 && !given.includes(one.name));
  const into = [...given, ...closed.map((one) => one.name)].map((column) => `"${column}"`).join(', ');
  const values = [...given.map(() => '?'), ...closed.map(() => 'lower(hex(randomblob(32)))')].join(', ');
  return book.prepare(`INSERT OR REPLACE INTO "${name}" (${into}) VALUES (${values})`);
}

function asKept(value: unknown, kind: ManifestTable['columns'][number]['kind']): unknown {
  if (value === null) return null;
  if (kind === 'yes_no') return value ? 1 : 0;
  if (kind === 'json') return JSON.stringify(value);
  return value;
}

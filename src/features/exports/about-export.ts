import type { GivenTable } from './table-files.ts';
import { GIVEN, WITHHELD } from './told-tables.ts';

/** Goes up when a reader of the one before would read it wrongly. */
export const FORMAT_VERSION = 1;

export interface AboutExport {
  exportedAt: string;
  studioName: string;
  currency: string;
  timeZone: string;
  /** The last migration the book has had: what its tables look like. */
  schema: string;
}

export interface ManifestTable {
  name: string;
  holds: string;
  rows: number;
  json: string;
  csv: string;
  columns: Pick<GivenTable['columns'][number], 'json' | 'csv' | 'kind' | 'unit'>[];
}

export interface Manifest extends AboutExport {
  format: string;
  formatVersion: number;
  tables: ManifestTable[];
  withheld: { table: string; column?: string; because: string }[];
}

/** What is in an export, for a program. */
export function manifestOf(about: AboutExport, tables: readonly (GivenTable & { rows: number })[]): string {
  const manifest: Manifest = {
    format: 'hearthbook-export',
    formatVersion: FORMAT_VERSION,
    ...about,
    tables: tables.map(({ name, holds, rows, columns }) => ({
      name,
      holds,
      rows,
      json: jsonPath(name),
      csv: csvPath(name),
      columns: columns.map(({ json, csv, kind, unit }) => ({ json, csv, kind, unit })),
    })),
    withheld: [
      ...Object.entries(WITHHELD).map(([table, because]) => ({ table, because })),
      ...Object.entries(GIVEN).flatMap(([table, { without }]) =>
        (without ?? []).map((column) => ({ table, column, because: 'It opens doors.' })),
      ),
    ],
  };
  return `${JSON.stringify(manifest, null, 2)}\n`;
}

/** The same for a person. */
export function readmeOf({ studioName, exportedAt, currency, timeZone }: AboutExport, tables: readonly GivenTable[]): string {
  return `Everything in the book of ${studioName}, as it was at ${exportedAt}.

Every table is here twice, with the same rows in the order they were written:

  json/<table>.json   a list of objects (UTF-8, RFC 8259), one a line; nothing is rounded
  csv/<table>.csv     the same for a spreadsheet (UTF-8, RFC 4180): commas, a header line, a decimal point, yes and no;
                      objects and lists are JSON in one field; words that a spreadsheet would take for a formula begin with
                      an apostrophe, which is no part of them
  files/<table>/…     pictures and data sheets; the tables have their places
  manifest.json       every table and column with its unit, for a program

Units are at the end of the names: _tenth_mg is 0.1 mg, _g grams, _mm millimetres, _c degrees Celsius, _k kelvin (differences),
_s seconds, _fraction a share of one, _minor_${currency} the smallest unit of ${currency}, _per_g ${currency} for a gram.
Moments are RFC 3339 in UTC, dates ISO 8601 in ${timeZone}. Rows point to each other by their ids.

Passwords, PINs, tokens and what opens private links are not in it.

${tables.map(({ name, holds }) => `${name.padEnd(24)}${holds}`).join('\n')}
`;
}

export function jsonPath(table: string): string {
  return `json/${table}.json`;
}

export function csvPath(table: string): string {
  return `csv/${table}.csv`;
}

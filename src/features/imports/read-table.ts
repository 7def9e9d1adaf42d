import { CsvError, parse } from 'csv-parse/sync';
import { invalidFields } from '../../platform/http/problem.ts';

const MOST_ROWS = 500;
const MOST_COLUMNS = 60;

export interface Table {
  delimiter: ',' | ';';
  header: string[];
  /** As a spreadsheet numbers them: the header is row 1. Rows without a word in them are left out. */
  rows: { row: number; cells: string[] }[];
}

/**
 * A file of CSV (RFC 4180) as its header and rows. Commas or semicolons stand between its fields: the header, whose names have
 * neither, tells which.
 *
 * @throws {Problem} invalid-fields where it is no such table, or too long
 */
export function readTable(text: string): Table {
  const header = text.slice(0, Math.max(0, text.search(/[\r\n]|$/)));
  const delimiter = header.includes(';') ? ';' : ',';
  const [names = [], ...records] = recordsOf(text, delimiter);
  if (names.length === 0) throw invalidFields([{ pointer: '', detail: 'There is nothing in it.' }]);
  if (records.length > MOST_ROWS)
    throw invalidFields([{ pointer: '', detail: `It has ${records.length} rows; send ${MOST_ROWS} at a time.` }]);
  if (names.length > MOST_COLUMNS)
    throw invalidFields([{ pointer: '', detail: `It has ${names.length} columns; no list has more than ${MOST_COLUMNS}.` }]);
  return {
    delimiter,
    header: names.map((name) => name.trim()),
    rows: records
      .map((cells, index) => ({ row: index + 2, cells }))
      .filter(({ cells }) => cells.some((cell) => cell.trim() !== '')),
  };
}

function recordsOf(text: string, delimiter: string): string[][] {
  try {
    return parse(text, { bom: true, delimiter, relax_column_count: true, record_delimiter: ['\r\n', '\n', '\r'] });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const fault = FAULTS[error.code] ?? error.code;
    const detail =
      error['records'] === undefined
        ? `It is not CSV (RFC 4180): ${fault}`
        : `It is not CSV (RFC 4180) in row ${Number(error['records']) + 1}: ${fault}`;
    throw invalidFields([{ pointer: '', detail }]);
  }
}

const FAULTS: Readonly<Record<string, string>> = {
  CSV_QUOTE_NOT_CLOSED: 'a quoted field is not closed.',
  CSV_INVALID_CLOSING_QUOTE: 'something stands behind the quote that closes a field; a quote inside of one is written twice.',
  INVALID_OPENING_QUOTE:
    'a quote stands inside of a field that does not begin with one; quote the whole field, and write the quote twice.',
};

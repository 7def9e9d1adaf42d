import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { Decimal } from '../../../shared/decimal.ts';
import type { Money } from './money.ts';

export interface Column<Row> {
  /** With the unit in it. */
  header: string;
  value: (row: Row) => string | number | null | undefined;
}

/**
 * A table as RFC 4180 has it: a header line, CRLF, quotes where a field needs them. Numbers have a decimal point. Words that a
 * spreadsheet would take for a formula begin with an apostrophe (OWASP, CSV Injection).
 */
export function csvOf<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string {
  const lines = [columns.map(({ header }) => header), ...rows.map((row) => columns.map(({ value }) => value(row)))];
  return lines.map(csvLine).join('');
}

export function csvLine(cells: readonly (string | number | null | undefined)[]): string {
  return `${cells.map(field).join(',')}\r\n`;
}

// With apostrophes before it too, so that taking one away gives back every text.
const FORMULA = /^'*(\s*[=+\-@＝＋－＠]|[\t\r])/u;
const NUMBER = /^-?\d+(\.\d+)?(e[+-]?\d+)?$/;

function field(value: string | number | null | undefined): string {
  const plain = value === null || value === undefined ? '' : String(value);
  const text = FORMULA.test(plain) && !NUMBER.test(plain) ? `'${plain}` : plain;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A cell of a table as it was before its apostrophe was put there. */
export function withoutGuard(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell;
}

/** The reply of a route that answers as JSON or, with ?format=csv, as a table. */
export function tableReply<Json extends z.ZodType>(json: Json) {
  return {
    description: 'JSON, or CSV (RFC 4180) with ?format=csv',
    content: { 'application/json': { schema: json }, 'text/csv': { schema: z.string() } },
  };
}

export const TableFormat = z.enum(['json', 'csv']).default('json');

export function sendCsv(reply: FastifyReply, name: string, text: string): string {
  reply.type('text/csv; charset=utf-8').header('content-disposition', `attachment; filename="${name}.csv"`);
  return text;
}

/** Money for a table: a decimal of the currency that the header names. */
export function inMajor(money: Money | null | undefined): string | null {
  if (!money) return null;
  const digits = minorDigits(money.currency);
  return new Decimal(money.amountMinor).div(new Decimal(10).pow(digits)).toFixed(digits);
}

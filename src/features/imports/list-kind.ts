import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import type { ListColumn } from './list-column.ts';

export type ListName = 'suppliers' | 'clients' | 'solder-products' | 'solder-lots' | 'metal-products' | 'metal-lots';

/** What a cell of an export holds. */
export type Written = string | number | boolean | null;

/** A list that can be read from a table and written as one. */
export interface ListKind {
  name: ListName;
  /** How a row is told from others, in words. */
  key: string;
  /** What a row has to be, as a request that makes one thing of it. */
  schema: z.ZodType;
  columns: (currency: string) => ListColumn[];
  /** What is changed of a body that was read from a row before it is checked, such as a code into an id; and what is wrong with that. */
  complete?: (db: Db, body: Body) => { body: Body; errors: FieldError[] };
  /** What a row is called, by what is in it. */
  keyOf: (body: Body) => string;
  /** Whether what a row is of is in the book. */
  isThere: (db: Db, body: Body) => boolean;
  /** Makes it. Its faults are told as problems with pointers into the body. */
  make: (actor: Actor, body: never) => void;
  /** What is in the book, as rows of the same columns, the oldest first. */
  written: (db: Db, currency: string) => Record<string, Written>[];
}

export type Body = Record<string, unknown>;

/** A row says with it that what looks odd in it was looked at. */
export const CONFIRM_REASON = 'confirm_reason';

export function text(header: string, pointer: string, says: string, needed = false): ListColumn {
  return { header, pointer, says, needed, cell: 'text' };
}

export function number(header: string, pointer: string, says: string, needed = false): ListColumn {
  return { header, pointer, says, needed, cell: 'number' };
}

export function yesNo(header: string, pointer: string, says: string): ListColumn {
  return { header, pointer, says, needed: false, cell: 'yes_no' };
}

export function money(name: string, pointer: string, { currency, says }: { currency: string; says: string }): ListColumn {
  return { header: `${name}_${currency}`, pointer, says, needed: false, cell: 'money', currency };
}

export function unitPrice(name: string, pointer: string, { currency, says }: { currency: string; says: string }): ListColumn {
  return { header: `${name}_${currency}_per_g`, pointer, says, needed: true, cell: 'unit_price' };
}

export function wordOf(body: Body, name: string): string {
  const word = body[name];
  return typeof word === 'string' ? word : '';
}

import { and, desc, eq, max } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { quotes } from '../../platform/db/tables.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Page } from '../../platform/http/paging.ts';

export type QuoteRow = typeof quotes.$inferSelect;

export interface QuoteFilter {
  commissionId?: string | undefined;
  state?: string | undefined;
}

export function getQuote(db: Db, id: string): QuoteRow {
  const row = rowById(db, quotes, id);
  if (!row) throw notFound('quote', id);
  return row;
}

export function listQuotes(db: Db, { limit, cursor, commissionId, state }: Page & QuoteFilter): QuoteRow[] {
  return newestRows(db, quotes, { limit, cursor }, { commissionId, state });
}

/** Versions of a commission in a state, newest first. */
export function quotesIn(db: Db, commissionId: string, state: string): QuoteRow[] {
  return db
    .select()
    .from(quotes)
    .where(and(eq(quotes.commissionId, commissionId), eq(quotes.state, state)))
    .orderBy(desc(quotes.number))
    .all();
}

export function sentQuotes(db: Db): QuoteRow[] {
  return db.select().from(quotes).where(eq(quotes.state, 'sent')).all();
}

export function lastNumber(db: Db, commissionId: string): number {
  const last = db
    .select({ number: max(quotes.number) })
    .from(quotes)
    .where(eq(quotes.commissionId, commissionId))
    .get();
  return last?.number ?? 0;
}

export function insertQuote(db: Db, row: typeof quotes.$inferInsert): QuoteRow {
  return insertRow(db, quotes, row);
}

export function updateQuote(db: Db, id: string, change: Partial<QuoteRow>): QuoteRow {
  return updateRow(db, quotes, id, change);
}

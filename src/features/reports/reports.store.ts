import { and, asc, eq, inArray, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { commissions, quotes, solderHistory } from '../../platform/db/tables.ts';

export type CommissionRow = typeof commissions.$inferSelect;
export type QuoteRow = typeof quotes.$inferSelect;

export function commissionsInStates(db: Db, states: readonly string[]): CommissionRow[] {
  return db
    .select()
    .from(commissions)
    .where(inArray(commissions.state, [...states]))
    .orderBy(asc(commissions.number))
    .all();
}

/** The version a commission is made by; while none is accepted, the newest that still may be. */
export function quoteOf(db: Db, commissionId: string): QuoteRow | undefined {
  const open = db
    .select()
    .from(quotes)
    .where(and(eq(quotes.commissionId, commissionId), inArray(quotes.state, ['accepted', 'sent', 'sketch'])))
    .orderBy(asc(quotes.number))
    .all();
  return open.find(({ state }) => state === 'accepted') ?? open.at(-1);
}

/** Every joint that was soldered, in the order it was. */
export function solderings(db: Db) {
  return db
    .select()
    .from(solderHistory)
    .orderBy(asc(solderHistory.at), sql`rowid`)
    .all();
}

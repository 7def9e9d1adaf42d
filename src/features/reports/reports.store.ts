import { and, asc, eq, inArray, isNotNull, notExists, sql } from 'drizzle-orm';
import { union } from 'drizzle-orm/sqlite-core';
import type { Db } from '../../platform/db/client.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { commissions, quotes, solderHistory } from '../../platform/db/tables.ts';
import { isIn, type Moments } from './report-numbers.ts';

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

/** The same of those whose price was accepted then; where none was, of those that were noted then. */
export function commissionsOfDays(db: Db, states: readonly string[], moments: Moments): CommissionRow[] {
  const accepted = and(eq(quotes.commissionId, commissions.id), sql`${quotes.state} = 'accepted'`);
  const dated = isIn(quotes.answeredAt, moments);
  const noted = isIn(commissions.createdAt, moments);
  if (!dated || !noted) return commissionsInStates(db, states);
  const then = union(
    db
      .select({ id: quotes.commissionId })
      .from(quotes)
      .where(and(sql`${quotes.state} = 'accepted'`, dated)),
    db
      .select({ id: commissions.id })
      .from(commissions)
      .where(
        and(
          noted,
          notExists(
            db
              .select({ id: quotes.id })
              .from(quotes)
              .where(and(accepted, isNotNull(quotes.answeredAt))),
          ),
        ),
      ),
  );
  return db
    .select()
    .from(commissions)
    .where(and(inArray(commissions.state, [...states]), inArray(commissions.id, then)))
    .orderBy(asc(commissions.number))
    .all();
}

export function commissionExists(db: Db, id: string): boolean {
  return db.select({ id: commissions.id }).from(commissions).where(eq(commissions.id, id)).get() !== undefined;
}

/** The version each of some commissions is made by; while none is accepted, the newest that still may be. */
export function quotesOf(db: Db, commissionIds: readonly string[]): Map<string, QuoteRow> {
  const open = db
    .select()
    .from(quotes)
    .where(and(isAmong(quotes.commissionId, commissionIds), inArray(quotes.state, ['accepted', 'sent', 'sketch'])))
    .orderBy(sql`${quotes.state} = 'accepted'`, asc(quotes.number))
    .all();
  // Of one commission, what comes last.
  return new Map(open.map((quote) => [quote.commissionId, quote]));
}

/** Every joint that was soldered then, in the order it was; redone: it had been soldered before. */
export function solderings(db: Db, moments: Moments) {
  const { productId, heatId, outcome, at } = solderHistory;
  return db
    .select({
      productId,
      heatId,
      outcome,
      at,
      redone: sql<number>`EXISTS (SELECT 1 FROM ${solderHistory} AS earlier WHERE earlier.piece_id = ${solderHistory}.piece_id AND earlier.joint_id = ${solderHistory}.joint_id AND (earlier.at, earlier.rowid) < (${solderHistory}.at, ${solderHistory}.rowid))`,
    })
    .from(solderHistory)
    .where(isIn(at, moments))
    .orderBy(asc(at), sql`rowid`)
    .all()
    .map((soldering) => ({ ...soldering, redone: soldering.redone === 1 }));
}

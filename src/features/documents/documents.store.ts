import { and, asc, eq, inArray, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { joints, journal, payments, quotes, sentLetters, solderProducts } from '../../platform/db/tables.ts';
import type { Paper } from './paper.ts';

export type QuoteRow = typeof quotes.$inferSelect;
export type PaymentRow = typeof payments.$inferSelect;

export function findQuote(db: Db, id: string): QuoteRow | undefined {
  return db.select().from(quotes).where(eq(quotes.id, id)).get();
}

/** The version that was accepted; a commission has one at most. */
export function acceptedQuote(db: Db, commissionId: string): QuoteRow | undefined {
  return db
    .select()
    .from(quotes)
    .where(and(eq(quotes.commissionId, commissionId), eq(quotes.state, 'accepted')))
    .get();
}

export function findPayment(db: Db, id: string): PaymentRow | undefined {
  return db.select().from(payments).where(eq(payments.id, id)).get();
}

/** Payments of a commission, oldest first. */
export function paymentsOf(db: Db, commissionId: string): PaymentRow[] {
  return db.select().from(payments).where(eq(payments.commissionId, commissionId)).orderBy(asc(payments.id)).all();
}

export function findSentLetter(db: Db, quoteId: string): Paper | undefined {
  const row = db.select().from(sentLetters).where(eq(sentLetters.quoteId, quoteId)).get();
  return row && (row.paper as Paper);
}

export function insertSentLetter(db: Db, row: { quoteId: string; paper: Paper; createdAt: string }): void {
  db.insert(sentLetters).values(row).run();
}

const HOLDING = ['sound', 'doubtful'];

/** The solders that hold a piece together, each once, the highest first; null stands for solder that nobody knows. */
export function soldersIn(db: Db, pieceId: string): ({ gradeWord: string; liquidusC: number } | null)[] {
  const held = db
    .select({ solder: joints.solder })
    .from(joints)
    .where(and(eq(joints.pieceId, pieceId), inArray(joints.state, HOLDING)))
    .all();
  const words = new Map(
    db
      .select()
      .from(solderProducts)
      .all()
      .map(({ code, gradeWord }) => [code, gradeWord]),
  );
  const known = new Map(
    held.flatMap(({ solder }) =>
      solder ? [[solder.id, { gradeWord: words.get(solder.id) ?? solder.id, liquidusC: solder.liquidusC }] as const] : [],
    ),
  );
  const sorted = [...known.values()].toSorted((a, b) => b.liquidusC - a.liquidusC || (a.gradeWord < b.gradeWord ? -1 : 1));
  return held.some(({ solder }) => solder === null) ? [...sorted, null] : sorted;
}

/** When a commission came into a state, the last time; undefined when it never did. */
export function enteredState(db: Db, commissionId: string, state: string): string | undefined {
  return db.get<{ since: string } | undefined>(
    sql`SELECT json_extract(${journal.after}, '$.stateSince') AS since FROM ${journal} WHERE ${journal.thingId} = ${commissionId} AND ${journal.what} = 'commission' AND json_extract(${journal.after}, '$.state') = ${state} ORDER BY ${journal.seq} DESC LIMIT 1`,
  )?.since;
}

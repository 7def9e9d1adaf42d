import { and, asc, eq, inArray, not, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { commissions, designs, journal, payments, pieces, quotes } from '../../platform/db/tables.ts';

export type PieceRow = typeof pieces.$inferSelect;

/** Every piece, in the order of their numbers, with the commission it is of. */
export function allPieces(db: Db) {
  return db
    .select({ piece: pieces, commission: commissions })
    .from(pieces)
    .innerJoin(commissions, eq(commissions.id, pieces.commissionId))
    .orderBy(asc(pieces.number))
    .all();
}

/** The design a piece is made by: its newest. */
export function newestDesign(db: Db, pieceId: string) {
  return db
    .select({ body: designs.body })
    .from(designs)
    .where(eq(designs.pieceId, pieceId))
    .orderBy(sql`${designs.number} desc`)
    .limit(1)
    .get();
}

/** What was paid for work that had not been handed over: money held for others. */
export function depositsHeld(db: Db) {
  return db
    .select({ payment: payments, number: commissions.number })
    .from(payments)
    .innerJoin(commissions, eq(commissions.id, payments.commissionId))
    .where(not(inArray(commissions.state, ['handed_over', 'settled'])))
    .orderBy(asc(commissions.number), asc(payments.id))
    .all();
}

/** Commissions that were handed over, when they first were, with the version they were sold by. */
export function sold(db: Db) {
  const handedOver = db
    .select({ id: journal.thingId, at: sql<string>`min(${journal.at})`.as('at') })
    .from(journal)
    .where(and(eq(journal.what, 'commission'), sql`json_extract(${journal.after}, '$.state') = 'handed_over'`))
    .groupBy(journal.thingId)
    .as('handed_over');
  return db
    .select({ number: commissions.number, at: handedOver.at, quote: quotes })
    .from(handedOver)
    .innerJoin(commissions, eq(commissions.id, handedOver.id))
    .innerJoin(quotes, and(eq(quotes.commissionId, commissions.id), eq(quotes.state, 'accepted')))
    .orderBy(asc(commissions.number))
    .all();
}

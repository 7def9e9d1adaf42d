import { and, asc, eq, inArray, isNotNull, ne, sql } from 'drizzle-orm';
import type { Design } from '../../../shared/design/design.ts';
import type { Db } from '../../platform/db/client.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { commissions, designs, journal, payments, pieces, quotes } from '../../platform/db/tables.ts';
import { isIn, type Moments } from './report-numbers.ts';

export type PieceRow = typeof pieces.$inferSelect;

/** Pieces that were noted then, in the order of their numbers, with the commission each is of. */
export function piecesNoted(db: Db, moments: Moments) {
  return db
    .select({ piece: pieces, commission: commissions })
    .from(pieces)
    .innerJoin(commissions, eq(commissions.id, pieces.commissionId))
    .where(isIn(pieces.createdAt, moments))
    .orderBy(asc(pieces.number))
    .all();
}

/** The same of pieces in some states whose commission is not settled. */
export function piecesOpen(db: Db, states: readonly string[]) {
  return db
    .select({ piece: pieces, commission: commissions })
    .from(pieces)
    .innerJoin(commissions, eq(commissions.id, pieces.commissionId))
    .where(and(inArray(pieces.state, [...states]), ne(commissions.state, 'settled')))
    .orderBy(asc(pieces.number))
    .all();
}

/** The designs that pieces are made by, the newest of each, by piece. */
export function newestDesigns(db: Db, pieceIds: readonly string[]): Map<string, Design> {
  const newest = sql`(SELECT max(number) FROM designs AS its WHERE its.piece_id = ${designs.pieceId})`;
  const found = db
    .select({ pieceId: designs.pieceId, body: designs.body })
    .from(designs)
    .where(and(isAmong(designs.pieceId, pieceIds), eq(designs.number, newest)))
    .all();
  return new Map(found.map(({ pieceId, body }) => [pieceId, body]));
}

/** What was received for every commission, with when its work was first handed over; null: it was not. */
export function paymentsReceived(db: Db) {
  const first = firstHandedOver(db);
  return db
    .select({ payment: payments, number: commissions.number, state: commissions.state, handedOverAt: first.at })
    .from(payments)
    .innerJoin(commissions, eq(commissions.id, payments.commissionId))
    .leftJoin(first, eq(first.id, commissions.id))
    .where(isNotNull(payments.receivedOn))
    .orderBy(asc(commissions.number), asc(payments.id))
    .all();
}

function firstHandedOver(db: Db) {
  return db
    .select({ id: journal.thingId, at: sql<string>`min(${journal.at})`.as('at') })
    .from(journal)
    .where(sql`${journal.what} = 'commission' AND json_extract(${journal.after}, '$.state') = 'handed_over'`)
    .groupBy(journal.thingId)
    .as('handed_over');
}

/** Commissions that were first handed over then, when they were, with the version they were sold by. */
export function sold(db: Db, moments: Moments) {
  const handedOver = firstHandedOver(db);
  return db
    .select({ number: commissions.number, at: handedOver.at, quote: quotes })
    .from(handedOver)
    .innerJoin(commissions, eq(commissions.id, handedOver.id))
    .innerJoin(quotes, and(eq(quotes.commissionId, commissions.id), eq(quotes.state, 'accepted')))
    .where(isIn(handedOver.at, moments))
    .orderBy(asc(commissions.number))
    .all();
}

import { and, asc, eq, inArray, isNotNull, ne, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import {
  benchTimes,
  commissions,
  people,
  pieces,
  quotes,
  solderHistory,
  solderLots,
  stockMovements,
} from '../../platform/db/tables.ts';

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

/** Spans at the bench on the pieces of a commission that ended and are not in doubt. */
export function timesOf(db: Db, commissionId: string) {
  return db
    .select({ time: benchTimes, pieceState: pieces.state })
    .from(benchTimes)
    .innerJoin(pieces, eq(pieces.id, benchTimes.pieceId))
    .where(and(eq(pieces.commissionId, commissionId), ne(benchTimes.state, 'running'), ne(benchTimes.state, 'in_doubt')))
    .orderBy(asc(benchTimes.startedAt))
    .all()
    .map(({ time: { id, pieceId, startedAt, stoppedAt, minutesByHand, ratePerHour }, pieceState }) => ({
      id,
      pieceId,
      pieceState,
      ratePerHour,
      minutes: minutesByHand ?? (Date.parse(stoppedAt ?? startedAt) - Date.parse(startedAt)) / 60_000,
    }));
}

/** What left the lots for the pieces of a commission (negative), or came back, at what each lot cost. */
export function solderOf(db: Db, commissionId: string) {
  return db
    .select({
      id: stockMovements.id,
      pieceId: stockMovements.pieceId,
      onHandTenthMg: stockMovements.onHandTenthMg,
      costPerG: solderLots.unitCostPerG,
    })
    .from(stockMovements)
    .innerJoin(solderLots, eq(solderLots.id, stockMovements.lotId))
    .innerJoin(pieces, eq(pieces.id, stockMovements.pieceId))
    .where(and(eq(pieces.commissionId, commissionId), ne(stockMovements.onHandTenthMg, 0)))
    .orderBy(sql`${stockMovements}.rowid`)
    .all();
}

/** Every joint that was soldered, in the order it was. */
export function solderings(db: Db) {
  return db
    .select()
    .from(solderHistory)
    .orderBy(asc(solderHistory.at), sql`rowid`)
    .all();
}

/** Minutes that those who work at the bench have there on a working day. */
export function benchMinutes(db: Db): number[] {
  return db
    .select({ roles: people.roles, minutes: people.benchMinutesPerDay })
    .from(people)
    .where(and(eq(people.active, true), isNotNull(people.benchMinutesPerDay)))
    .all()
    .filter(({ roles }) => roles.includes('bench') || roles.includes('owner'))
    .map(({ minutes }) => minutes ?? 0);
}

import { and, asc, desc, eq, inArray, isNotNull, notInArray, or, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { clients, commissions, incidents, payments, pieces, quotes } from '../../platform/db/tables.ts';
import { isIn, type Moments } from './report-numbers.ts';

export type QuoteRow = typeof quotes.$inferSelect;

export type QuotedSums = Pick<QuoteRow['answer'], 'totals' | 'lines'>;

/** Totals and lines of some versions, by the id of each, without how they came about. */
export function quotedSums(db: Db, ids: readonly string[]): Map<string, QuotedSums> {
  const sums = db
    .select({ id: quotes.id, sums: sql<string>`json_extract(${quotes.answer}, '$.totals', '$.lines')` })
    .from(quotes)
    .where(isAmong(quotes.id, ids))
    .all();
  return new Map(
    sums.map(({ id, sums: text }) => {
      const [totals, lines] = JSON.parse(text) as [QuotedSums['totals'], QuotedSums['lines']];
      return [id, { totals, lines }];
    }),
  );
}

/** Every version that was sent then, in the order they were written. */
export function sentVersions(db: Db, moments: Moments): QuoteRow[] {
  return db
    .select()
    .from(quotes)
    .where(and(isNotNull(quotes.sentAt), isIn(quotes.sentAt, moments)))
    .orderBy(asc(quotes.id))
    .all();
}

/** What went wrong with the pieces of some commissions: minutes, and the solder that a heat of them took for nothing. */
export function incidentsOn(db: Db, commissionIds: readonly string[]) {
  return db
    .select({
      commissionId: pieces.commissionId,
      id: incidents.id,
      minutesLost: incidents.minutesLost,
      solderTenthMg: incidents.solderUsedTenthMg,
      heatId: incidents.heatId,
    })
    .from(incidents)
    .innerJoin(pieces, eq(pieces.id, incidents.pieceId))
    .where(isAmong(pieces.commissionId, commissionIds))
    .orderBy(asc(incidents.id))
    .all();
}

/**
 * Commissions that have a price or took money, with the name of their client; without those that were paid in full and are over: of
 * these there is nothing to tell.
 */
export function moneyOn(db: Db, over: readonly string[]) {
  const paid = db.select({ id: payments.commissionId }).from(payments).where(isNotNull(payments.receivedOn));
  const priced = db
    .select({ id: quotes.commissionId })
    .from(quotes)
    .where(sql`${quotes.state} = 'accepted'`);
  const due = sql`coalesce((SELECT ${quotes.grossMinor} FROM ${quotes} WHERE ${quotes.commissionId} = ${commissions.id} AND ${quotes.state} = 'accepted'), 0)`;
  const received = sql`coalesce((SELECT sum(iif(${payments.kind} = 'send_back', -1, 1) * ${payments.amountMinor}) FROM ${payments} WHERE ${payments.commissionId} = ${commissions.id} AND ${payments.receivedOn} IS NOT NULL), 0)`;
  return db
    .select({ commission: commissions, client: clients.name })
    .from(commissions)
    .leftJoin(clients, eq(clients.id, commissions.clientId))
    .where(
      and(
        or(notInArray(commissions.state, [...over]), sql`${due} <> ${received}`),
        sql`(${commissions.id} in (${paid}) or ${commissions.id} in (${priced}))`,
      ),
    )
    .orderBy(asc(commissions.number))
    .all();
}

export function acceptedVersion(db: Db, commissionId: string): { id: string; answeredAt: string | null } | undefined {
  return db
    .select({ id: quotes.id, answeredAt: quotes.answeredAt })
    .from(quotes)
    .where(and(eq(quotes.commissionId, commissionId), inArray(quotes.state, ['accepted'])))
    .get();
}

export function paymentsOf(db: Db, commissionId: string): { id: string; receivedOn: string }[] {
  return db
    .select({ id: payments.id, receivedOn: sql<string>`${payments.receivedOn}` })
    .from(payments)
    .where(and(eq(payments.commissionId, commissionId), isNotNull(payments.receivedOn)))
    .orderBy(desc(payments.id))
    .all();
}

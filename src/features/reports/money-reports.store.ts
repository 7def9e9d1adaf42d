import { and, asc, desc, eq, inArray, isNotNull, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { clients, commissions, heats, incidents, payments, pieces, quotes, solderLots } from '../../platform/db/tables.ts';

export type QuoteRow = typeof quotes.$inferSelect;

export function quoteById(db: Db, id: string): QuoteRow {
  return db.select().from(quotes).where(eq(quotes.id, id)).get()!;
}

/** Every version that was sent, in the order they were written. */
export function sentVersions(db: Db): QuoteRow[] {
  return db.select().from(quotes).where(isNotNull(quotes.sentAt)).orderBy(asc(quotes.id)).all();
}

/** What went wrong with the pieces of a commission: minutes, and solder at the cost of the lot of its heat. */
export function incidentsOn(db: Db, commissionId: string): { id: string; minutesLost: number | null; solderCost: number }[] {
  return db
    .select({
      id: incidents.id,
      minutesLost: incidents.minutesLost,
      solderTenthMg: incidents.solderUsedTenthMg,
      costPerG: solderLots.unitCostPerG,
    })
    .from(incidents)
    .innerJoin(pieces, eq(pieces.id, incidents.pieceId))
    .leftJoin(heats, eq(heats.id, incidents.heatId))
    .leftJoin(solderLots, eq(solderLots.id, heats.lotId))
    .where(eq(pieces.commissionId, commissionId))
    .orderBy(asc(incidents.id))
    .all()
    .map(({ id, minutesLost, solderTenthMg, costPerG }) => ({
      id,
      minutesLost,
      solderCost: ((solderTenthMg ?? 0) / 10_000) * Number(costPerG ?? 0),
    }));
}

/** Commissions that have a price or took money, with the name of their client. */
export function moneyOn(db: Db) {
  const paid = db.select({ id: payments.commissionId }).from(payments);
  const priced = db.select({ id: quotes.commissionId }).from(quotes).where(eq(quotes.state, 'accepted'));
  return db
    .select({ commission: commissions, client: clients.name })
    .from(commissions)
    .leftJoin(clients, eq(clients.id, commissions.clientId))
    .where(sql`${commissions.id} in (${paid}) or ${commissions.id} in (${priced})`)
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
    .select({ id: payments.id, receivedOn: payments.receivedOn })
    .from(payments)
    .where(eq(payments.commissionId, commissionId))
    .orderBy(desc(payments.id))
    .all();
}

import { and, eq, inArray, isNotNull, ne, sql, type SQL } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { clients, commissions, payments, pieces, plans, quotes } from '../../platform/db/tables.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Page } from '../../platform/http/paging.ts';

export type CommissionRow = typeof commissions.$inferSelect;

export interface CommissionFilter {
  state?: string | undefined;
  clientId?: string | undefined;
  kind?: string | undefined;
}

export function findCommission(db: Db, id: string): CommissionRow | undefined {
  return rowById(db, commissions, id);
}

export function getCommission(db: Db, id: string): CommissionRow {
  const row = findCommission(db, id);
  if (!row) throw notFound('commission', id);
  return row;
}

export function listCommissions(db: Db, { limit, cursor, state, clientId, kind }: Page & CommissionFilter): CommissionRow[] {
  return newestRows(db, commissions, { limit, cursor }, { state, clientId, kind });
}

export function commissionsIn(db: Db, state: string): CommissionRow[] {
  return db.select().from(commissions).where(eq(commissions.state, state)).all();
}

export function insertCommission(db: Db, row: typeof commissions.$inferInsert): CommissionRow {
  return insertRow(db, commissions, row);
}

export function updateCommission(db: Db, id: string, change: Partial<CommissionRow>): CommissionRow {
  return updateRow(db, commissions, id, change);
}

export function clientNames(db: Db, ids: string[]): Map<string, string> {
  if (ids.length === 0) return new Map();
  const rows = namesAmong(db).all({ ids: JSON.stringify(ids) });
  return new Map(rows.map(({ id, name }) => [id, name]));
}

const namesAmong = prepared((db) =>
  db
    .select({ id: clients.id, name: clients.name })
    .from(clients)
    .where(sql`${clients.id} IN (SELECT value FROM json_each(${sql.placeholder('ids')}))`)
    .prepare(),
);

export function pieceExists(db: Db, id: string): boolean {
  return db.select({ id: pieces.id }).from(pieces).where(eq(pieces.id, id)).get() !== undefined;
}

export function piecesIn(db: Db, commissionId: string) {
  return db
    .select({ id: pieces.id, number: pieces.number, title: pieces.title, state: pieces.state })
    .from(pieces)
    .where(eq(pieces.commissionId, commissionId))
    .orderBy(pieces.serial)
    .all();
}

/** Those of some pieces that have a plan version that was checked and still counts. */
export function piecesWithCheckedPlan(db: Db, pieceIds: string[]): Set<string> {
  const rows = db
    .selectDistinct({ pieceId: plans.pieceId })
    .from(plans)
    .where(and(inArray(plans.pieceId, pieceIds), inArray(plans.state, ['checked', 'signed', 'in_use'])))
    .all();
  return new Set(rows.map(({ pieceId }) => pieceId));
}

export function quotesOf(db: Db, commissionId: string) {
  return db
    .select({
      id: quotes.id,
      number: quotes.number,
      state: quotes.state,
      validUntil: quotes.validUntil,
      sentAt: quotes.sentAt,
      currency: quotes.currency,
      grossMinor: quotes.grossMinor,
      depositMinor: quotes.depositMinor,
    })
    .from(quotes)
    .where(eq(quotes.commissionId, commissionId))
    .orderBy(quotes.number)
    .all();
}

/** What came in, and what of it went back. */
export function moneyMoved(db: Db, commissionId: string): { inMinor: number; backMinor: number } {
  const [inMinor, backMinor] = [sumOf(ne(payments.kind, 'send_back')), sumOf(eq(payments.kind, 'send_back'))];
  const moved = and(eq(payments.commissionId, commissionId), isNotNull(payments.receivedOn));
  return db.select({ inMinor, backMinor }).from(payments).where(moved).get()!;
}

function sumOf(which: SQL) {
  return sql<number>`coalesce(sum(case when ${which} then ${payments.amountMinor} end), 0)`;
}

/** The version a commission is made by, with all its working. */
export function acceptedQuote(db: Db, commissionId: string): typeof quotes.$inferSelect | undefined {
  return db
    .select()
    .from(quotes)
    .where(and(eq(quotes.commissionId, commissionId), eq(quotes.state, 'accepted')))
    .get();
}

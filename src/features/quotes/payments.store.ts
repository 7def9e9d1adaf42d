import { and, desc, eq, lt, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { payments } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type PaymentRow = typeof payments.$inferSelect;

export function listPayments(
  db: Db,
  { limit, cursor, commissionId, state }: Page & { commissionId?: string | undefined; state?: string | undefined },
): PaymentRow[] {
  return db
    .select()
    .from(payments)
    .where(
      and(
        cursor === undefined ? undefined : lt(payments.id, cursor),
        commissionId === undefined ? undefined : eq(payments.commissionId, commissionId),
        state === undefined ? undefined : eq(payments.state, state),
      ),
    )
    .orderBy(desc(payments.id))
    .limit(limit + 1)
    .all();
}

export function findPayment(db: Db, id: string): PaymentRow | undefined {
  return db.select().from(payments).where(eq(payments.id, id)).get();
}

/** What of a payment went back already. */
export function sentBackOf(db: Db, id: string): number {
  const total = sql<number>`coalesce(sum(${payments.amountMinor}), 0)`;
  return db.select({ total }).from(payments).where(eq(payments.returnsId, id)).get()!.total;
}

export function updatePayment(db: Db, { id, version }: PaymentRow, change: Partial<PaymentRow>): PaymentRow {
  return db
    .update(payments)
    .set({ ...change, version: version + 1 })
    .where(eq(payments.id, id))
    .returning()
    .get();
}

export function insertPayment(db: Db, row: typeof payments.$inferInsert): PaymentRow {
  return db.insert(payments).values(row).returning().get();
}

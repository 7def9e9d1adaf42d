import { eq, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById } from '../../platform/db/rows.ts';
import { payments } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type PaymentRow = typeof payments.$inferSelect;

export function listPayments(
  db: Db,
  { limit, cursor, commissionId, state }: Page & { commissionId?: string | undefined; state?: string | undefined },
): PaymentRow[] {
  return newestRows(db, payments, { limit, cursor }, { commissionId, state });
}

export function findPayment(db: Db, id: string): PaymentRow | undefined {
  return rowById(db, payments, id);
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
  return insertRow(db, payments, row);
}

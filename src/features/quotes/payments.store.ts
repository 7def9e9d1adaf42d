import { and, desc, eq, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { payments } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type PaymentRow = typeof payments.$inferSelect;

export function listPayments(
  db: Db,
  { limit, cursor, commissionId }: Page & { commissionId?: string | undefined },
): PaymentRow[] {
  return db
    .select()
    .from(payments)
    .where(
      and(
        cursor === undefined ? undefined : lt(payments.id, cursor),
        commissionId === undefined ? undefined : eq(payments.commissionId, commissionId),
      ),
    )
    .orderBy(desc(payments.id))
    .limit(limit + 1)
    .all();
}

export function insertPayment(db: Db, row: typeof payments.$inferInsert): PaymentRow {
  return db.insert(payments).values(row).returning().get();
}

import { desc, eq, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { monthLocks } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type MonthLockRow = typeof monthLocks.$inferSelect;

export function findLock(db: Db, month: string): MonthLockRow | undefined {
  return db.select().from(monthLocks).where(eq(monthLocks.month, month)).get();
}

/** Closed months, the one closed last first. */
export function listLocks(db: Db, { limit, cursor }: Page): MonthLockRow[] {
  return db
    .select()
    .from(monthLocks)
    .where(cursor === undefined ? undefined : lt(monthLocks.id, cursor))
    .orderBy(desc(monthLocks.id))
    .limit(limit + 1)
    .all();
}

export function allLocks(db: Db): MonthLockRow[] {
  return db.select().from(monthLocks).orderBy(monthLocks.month).all();
}

export function insertLock(db: Db, row: typeof monthLocks.$inferInsert): MonthLockRow {
  return db.insert(monthLocks).values(row).returning().get();
}

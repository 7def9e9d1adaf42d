import { eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows } from '../../platform/db/rows.ts';
import { monthLocks } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type MonthLockRow = typeof monthLocks.$inferSelect;

export function findLock(db: Db, month: string): MonthLockRow | undefined {
  return db.select().from(monthLocks).where(eq(monthLocks.month, month)).get();
}

/** Closed months, the one closed last first. */
export function listLocks(db: Db, { limit, cursor }: Page): MonthLockRow[] {
  return newestRows(db, monthLocks, { limit, cursor });
}

export function allLocks(db: Db): MonthLockRow[] {
  return db.select().from(monthLocks).orderBy(monthLocks.month).all();
}

export function insertLock(db: Db, row: typeof monthLocks.$inferInsert): MonthLockRow {
  return insertRow(db, monthLocks, row);
}

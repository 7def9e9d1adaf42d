import { desc, eq, lte } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { backups } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type BackupRow = typeof backups.$inferSelect;

export function getBackup(db: Db, id: string): BackupRow {
  const row = rowById(db, backups, id);
  if (!row) throw notFound('backup', id);
  return row;
}

export function listBackups(db: Db, { limit, cursor }: Page): BackupRow[] {
  return newestRows(db, backups, { limit, cursor });
}

export function insertBackup(tx: Db, row: typeof backups.$inferInsert): BackupRow {
  return insertRow(tx, backups, row);
}

export function changeBackup(tx: Db, id: string, change: Partial<BackupRow>): BackupRow {
  return updateRow(tx, backups, id, change);
}

/** Newest first. */
export function keptBackups(db: Db): BackupRow[] {
  return db.select().from(backups).where(eq(backups.state, 'kept')).orderBy(desc(backups.id)).all();
}

/**
 * The newest that was begun, whatever became of it.
 *
 * @param at what is of later was made before the clock was put back: it does not stand for the time since
 */
export function newestBackup(db: Db, at: Date): BackupRow | undefined {
  return db.select().from(backups).where(lte(backups.begunAt, at.toISOString())).orderBy(desc(backups.id)).limit(1).get();
}

/** @param at as of newestBackup() */
export function lastCheckedAt(db: Db, at: Date): string | null {
  const row = db
    .select({ at: backups.checkedAt })
    .from(backups)
    .where(lte(backups.checkedAt, at.toISOString()))
    .orderBy(desc(backups.checkedAt))
    .limit(1)
    .get();
  return row?.at ?? null;
}

/** Those that a server which has ended left unfinished, or that are worked on. */
export function unfinishedBackups(db: Db): BackupRow[] {
  return db.select().from(backups).where(eq(backups.state, 'running')).all();
}

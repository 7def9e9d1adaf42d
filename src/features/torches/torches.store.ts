import { eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { torches } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type TorchRow = typeof torches.$inferSelect;

export function findTorch(db: Db, id: string): TorchRow | undefined {
  return rowById(db, torches, id);
}

export function findTorchByName(db: Db, name: string): TorchRow | undefined {
  return db.select().from(torches).where(eq(torches.name, name)).get();
}

export function listTorches(db: Db, { limit, cursor }: Page): TorchRow[] {
  return newestRows(db, torches, { limit, cursor });
}

export function insertTorch(db: Db, row: typeof torches.$inferInsert): TorchRow {
  return insertRow(db, torches, row);
}

export function updateTorch(db: Db, id: string, change: Partial<TorchRow>): TorchRow {
  return updateRow(db, torches, id, change);
}

import { desc, eq, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { torches } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type TorchRow = typeof torches.$inferSelect;

export function findTorch(db: Db, id: string): TorchRow | undefined {
  return db.select().from(torches).where(eq(torches.id, id)).get();
}

export function findTorchByName(db: Db, name: string): TorchRow | undefined {
  return db.select().from(torches).where(eq(torches.name, name)).get();
}

export function listTorches(db: Db, { limit, cursor }: Page): TorchRow[] {
  return db
    .select()
    .from(torches)
    .where(cursor === undefined ? undefined : lt(torches.id, cursor))
    .orderBy(desc(torches.id))
    .limit(limit + 1)
    .all();
}

export function insertTorch(db: Db, row: typeof torches.$inferInsert): TorchRow {
  return db.insert(torches).values(row).returning().get();
}

export function updateTorch(db: Db, id: string, change: Partial<TorchRow>): TorchRow {
  return db.update(torches).set(change).where(eq(torches.id, id)).returning().get();
}

import { asc, eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { ownMetals } from '../../platform/db/tables.ts';

export type OwnMetalRow = typeof ownMetals.$inferSelect;

export function findOwnMetal(db: Db, id: string): OwnMetalRow | undefined {
  return db.select().from(ownMetals).where(eq(ownMetals.id, id)).get();
}

export function listOwnMetals(db: Db): OwnMetalRow[] {
  return db.select().from(ownMetals).orderBy(asc(ownMetals.id)).all();
}

export function insertOwnMetal(db: Db, row: typeof ownMetals.$inferInsert): OwnMetalRow {
  return db.insert(ownMetals).values(row).returning().get();
}

export function updateOwnMetal(db: Db, id: string, change: Partial<OwnMetalRow>): OwnMetalRow {
  return db.update(ownMetals).set(change).where(eq(ownMetals.id, id)).returning().get();
}

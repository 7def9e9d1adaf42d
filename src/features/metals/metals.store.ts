import { asc } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById, updateRow } from '../../platform/db/rows.ts';
import { ownMetals } from '../../platform/db/tables.ts';

export type OwnMetalRow = typeof ownMetals.$inferSelect;

export function findOwnMetal(db: Db, id: string): OwnMetalRow | undefined {
  return rowById(db, ownMetals, id);
}

export function listOwnMetals(db: Db): OwnMetalRow[] {
  return db.select().from(ownMetals).orderBy(asc(ownMetals.id)).all();
}

export function insertOwnMetal(db: Db, row: typeof ownMetals.$inferInsert): OwnMetalRow {
  return insertRow(db, ownMetals, row);
}

export function updateOwnMetal(db: Db, id: string, change: Partial<OwnMetalRow>): OwnMetalRow {
  return updateRow(db, ownMetals, id, change);
}

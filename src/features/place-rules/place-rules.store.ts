import { asc, eq, gt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { placeRules } from '../../platform/db/tables.ts';

export type PlaceRulesRow = typeof placeRules.$inferSelect;

export function findPlaceRules(db: Db, place: string): PlaceRulesRow | undefined {
  return db.select().from(placeRules).where(eq(placeRules.place, place)).get();
}

export function listPlaceRules(db: Db, { limit, cursor }: { limit: number; cursor?: string | undefined }): PlaceRulesRow[] {
  return db
    .select()
    .from(placeRules)
    .where(cursor === undefined ? undefined : gt(placeRules.place, cursor))
    .orderBy(asc(placeRules.place))
    .limit(limit + 1)
    .all();
}

export function putPlaceRules(db: Db, row: PlaceRulesRow): PlaceRulesRow {
  return db.insert(placeRules).values(row).onConflictDoUpdate({ target: placeRules.place, set: row }).returning().get();
}

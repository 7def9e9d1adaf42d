import { and, asc, desc, eq, lt, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { solderLots } from '../../platform/db/tables.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Page } from '../../platform/http/paging.ts';

export type LotRow = typeof solderLots.$inferSelect;

/** @throws {Problem} not-found */
export function getLot(db: Db, id: string): LotRow {
  const row = findLot(db, id);
  if (!row) throw notFound('solder lot', id);
  return row;
}

export function findLot(db: Db, id: string): LotRow | undefined {
  return db.select().from(solderLots).where(eq(solderLots.id, id)).get();
}

export function listLots(
  db: Db,
  { limit, cursor, productId, state }: Page & { productId?: string | undefined; state?: string | undefined },
): LotRow[] {
  return db
    .select()
    .from(solderLots)
    .where(
      and(
        cursor === undefined ? undefined : lt(solderLots.id, cursor),
        productId === undefined ? undefined : eq(solderLots.productId, productId),
        state === undefined ? undefined : eq(solderLots.state, state),
      ),
    )
    .orderBy(desc(solderLots.id))
    .limit(limit + 1)
    .all();
}

/** In the order they came in: by day, and within a day as they were written. */
export function lotsOldestFirst(db: Db, productId?: string): LotRow[] {
  return db
    .select()
    .from(solderLots)
    .where(productId === undefined ? undefined : eq(solderLots.productId, productId))
    .orderBy(asc(solderLots.receivedOn), sql`rowid`)
    .all();
}

export function insertLot(db: Db, row: typeof solderLots.$inferInsert): LotRow {
  return db.insert(solderLots).values(row).returning().get();
}

export function updateLot(db: Db, id: string, change: Partial<LotRow>): LotRow {
  return db.update(solderLots).set(change).where(eq(solderLots.id, id)).returning().get();
}

import { asc, eq, inArray, sql } from 'drizzle-orm';
import { union } from 'drizzle-orm/sqlite-core';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { nowSolderLots, solderLots } from '../../platform/db/tables.ts';
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
  return rowById(db, solderLots, id);
}

export function findLotByNumber(db: Db, number: string): LotRow | undefined {
  return db.select().from(solderLots).where(eq(solderLots.number, number)).get();
}

export function listLots(
  db: Db,
  { limit, cursor, productId, state }: Page & { productId?: string | undefined; state?: string | undefined },
): LotRow[] {
  return newestRows(db, solderLots, { limit, cursor }, { productId, state });
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

/** The day the first lot of a product came in. */
export function firstReceived(db: Db, productId: string): string | undefined {
  return (
    db
      .select({ on: sql<string | null>`min(${solderLots.receivedOn})` })
      .from(solderLots)
      .where(eq(solderLots.productId, productId))
      .get()?.on ?? undefined
  );
}

/** The same of lots that are not over, and of those that hold something all the same. */
export function lotsInDrawer(db: Db): LotRow[] {
  return db
    .select()
    .from(solderLots)
    .where(
      inArray(
        solderLots.id,
        union(
          db.select({ id: solderLots.id }).from(solderLots).where(inArray(solderLots.state, IN_DRAWER)),
          db
            .select({ id: nowSolderLots.lotId })
            .from(nowSolderLots)
            .where(sql`${nowSolderLots.onHandTenthMg} <> 0`),
        ),
      ),
    )
    .orderBy(asc(solderLots.receivedOn), sql`rowid`)
    .all();
}

const IN_DRAWER = ['sealed', 'open', 'held_back'];

/** What a gram of each lot of a product cost, the least first. */
export function unitCostsInOrder(db: Db, productId: string): string[] {
  const { unitCostPerG } = solderLots;
  return db
    .select({ unitCostPerG })
    .from(solderLots)
    .where(eq(solderLots.productId, productId))
    .orderBy(sql`CAST(${unitCostPerG} AS REAL)`)
    .all()
    .map((lot) => lot.unitCostPerG);
}

export function insertLot(db: Db, row: typeof solderLots.$inferInsert): LotRow {
  return insertRow(db, solderLots, row);
}

export function updateLot(db: Db, id: string, change: Partial<LotRow>): LotRow {
  return updateRow(db, solderLots, id, change);
}

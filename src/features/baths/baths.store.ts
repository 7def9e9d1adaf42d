import { and, asc, count, desc, eq, getTableColumns, inArray, isNull, lt, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { bathDips, dipReversals, heats, pickleBaths } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type BathRow = typeof pickleBaths.$inferSelect;
export type DipRow = typeof bathDips.$inferSelect;
export type DipReversalRow = typeof dipReversals.$inferSelect;

export function findBath(db: Db, id: string): BathRow | undefined {
  return rowById(db, pickleBaths, id);
}

/** @throws {Problem} not-found */
export function getBath(db: Db, id: string): BathRow {
  const row = findBath(db, id);
  if (!row) throw notFound('pickle bath', id);
  return row;
}

export function listBaths(db: Db, { limit, cursor, state }: Page & { state?: string | undefined }): BathRow[] {
  return newestRows(db, pickleBaths, { limit, cursor }, { state });
}

export function allBaths(db: Db): BathRow[] {
  return db.select().from(pickleBaths).orderBy(asc(pickleBaths.id)).all();
}

export function bathsInStates(db: Db, states: readonly string[]): BathRow[] {
  return db
    .select()
    .from(pickleBaths)
    .where(inArray(pickleBaths.state, [...states]))
    .orderBy(asc(pickleBaths.id))
    .all();
}

export function insertBath(db: Db, row: typeof pickleBaths.$inferInsert): BathRow {
  return insertRow(db, pickleBaths, row);
}

export function updateBath(db: Db, id: string, change: Partial<BathRow>): BathRow {
  return updateRow(db, pickleBaths, id, change);
}

/** What the dips of a bath took together, of those that count: not taken back. */
export function dipSumsOf(db: Db, bathId: string): { dips: number; copperG: number; acidG: number } {
  return db
    .select({
      dips: count(),
      copperG: sql<number>`total(${bathDips.copperG})`,
      acidG: sql<number>`total(${bathDips.acidG})`,
    })
    .from(bathDips)
    .leftJoin(dipReversals, eq(dipReversals.dipId, bathDips.id))
    .where(and(eq(bathDips.bathId, bathId), isNull(dipReversals.id)))
    .get()!;
}

export interface ListedDip extends DipRow {
  heatNumber: number;
  pieceId: string;
  takenBack: DipReversalRow | null;
}

export function listDips(db: Db, bathId: string, { limit, cursor }: Page): ListedDip[] {
  return dipsWithMore(db)
    .where(and(eq(bathDips.bathId, bathId), cursor === undefined ? undefined : lt(bathDips.id, cursor)))
    .orderBy(desc(bathDips.id))
    .limit(limit + 1)
    .all();
}

/** @throws {Problem} not-found */
export function getDip(db: Db, id: string): ListedDip {
  const row = dipsWithMore(db).where(eq(bathDips.id, id)).get();
  if (!row) throw notFound('dip', id);
  return row;
}

function dipsWithMore(db: Db) {
  return db
    .select({ ...getTableColumns(bathDips), heatNumber: heats.number, pieceId: heats.pieceId, takenBack: dipReversals })
    .from(bathDips)
    .innerJoin(heats, eq(heats.id, bathDips.heatId))
    .leftJoin(dipReversals, eq(dipReversals.dipId, bathDips.id));
}

export function insertDipReversal(db: Db, row: DipReversalRow): DipReversalRow {
  return insertRow(db, dipReversals, row);
}

export function insertDip(db: Db, row: typeof bathDips.$inferInsert): DipRow {
  return insertRow(db, bathDips, row);
}

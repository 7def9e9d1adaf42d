import { asc, eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { metalProducts, ownMetals } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type MetalProductRow = typeof metalProducts.$inferSelect;

export function findMetalProduct(db: Db, id: string): MetalProductRow | undefined {
  return rowById(db, metalProducts, id);
}

/** @throws {Problem} not-found */
export function getMetalProduct(db: Db, id: string): MetalProductRow {
  const row = findMetalProduct(db, id);
  if (!row) throw notFound('metal product', id);
  return row;
}

export function findMetalProductByName(db: Db, name: string): MetalProductRow | undefined {
  return db.select().from(metalProducts).where(eq(metalProducts.name, name)).get();
}

export function listMetalProducts(
  db: Db,
  { limit, cursor, metal, active }: Page & { metal?: string | undefined; active?: boolean | undefined },
): MetalProductRow[] {
  return newestRows(db, metalProducts, { limit, cursor }, { metal, active });
}

export function allMetalProducts(db: Db): MetalProductRow[] {
  return db.select().from(metalProducts).orderBy(asc(metalProducts.metal), asc(metalProducts.name)).all();
}

export function metalProductsOldestFirst(db: Db): MetalProductRow[] {
  return db.select().from(metalProducts).orderBy(asc(metalProducts.id)).all();
}

export function insertMetalProduct(db: Db, row: typeof metalProducts.$inferInsert): MetalProductRow {
  return insertRow(db, metalProducts, row);
}

export function updateMetalProduct(db: Db, id: string, change: Partial<MetalProductRow>): MetalProductRow {
  return updateRow(db, metalProducts, id, change);
}

/** A metal that the studio added to those of the table. */
export function findOwnMetal(db: Db, id: string): { densityGPerCm3: number; finenessFraction: number | null } | undefined {
  return rowById(db, ownMetals, id);
}

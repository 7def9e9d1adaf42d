import { asc, desc, eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { solderProducts } from '../../platform/db/tables.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Page } from '../../platform/http/paging.ts';

export type SolderProductRow = typeof solderProducts.$inferSelect;

export function findProduct(db: Db, id: string): SolderProductRow | undefined {
  return rowById(db, solderProducts, id);
}

/** @throws {Problem} not-found */
export function getProduct(db: Db, id: string): SolderProductRow {
  const row = findProduct(db, id);
  if (!row) throw notFound('solder product', id);
  return row;
}

export function findProductByCode(db: Db, code: string): SolderProductRow | undefined {
  return db.select().from(solderProducts).where(eq(solderProducts.code, code)).get();
}

export interface ProductFilter {
  active?: boolean | undefined;
  form?: SolderProductRow['form'] | undefined;
  supplier?: string | undefined;
  code?: string | undefined;
}

export function listProducts(db: Db, { limit, cursor, active, form, supplier, code }: Page & ProductFilter): SolderProductRow[] {
  return newestRows(db, solderProducts, { limit, cursor }, { active, form, supplier, code });
}

/** By flow point, the hardest first. */
export function allProducts(db: Db): SolderProductRow[] {
  return db.select().from(solderProducts).orderBy(desc(solderProducts.liquidusC), asc(solderProducts.code)).all();
}

export function productsOldestFirst(db: Db): SolderProductRow[] {
  return db.select().from(solderProducts).orderBy(asc(solderProducts.id)).all();
}

export function insertProduct(db: Db, row: typeof solderProducts.$inferInsert): SolderProductRow {
  return insertRow(db, solderProducts, row);
}

export function updateProduct(db: Db, id: string, change: Partial<SolderProductRow>): SolderProductRow {
  return updateRow(db, solderProducts, id, change);
}

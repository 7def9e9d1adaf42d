import { and, asc, desc, eq, lt } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { solderProducts } from '../../platform/db/tables.ts';
import { notFound } from '../../platform/http/problem.ts';
import type { Page } from '../../platform/http/paging.ts';

export type SolderProductRow = typeof solderProducts.$inferSelect;

export function findProduct(db: Db, id: string): SolderProductRow | undefined {
  return db.select().from(solderProducts).where(eq(solderProducts.id, id)).get();
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
  return db
    .select()
    .from(solderProducts)
    .where(
      and(
        cursor === undefined ? undefined : lt(solderProducts.id, cursor),
        active === undefined ? undefined : eq(solderProducts.active, active),
        form === undefined ? undefined : eq(solderProducts.form, form),
        supplier === undefined ? undefined : eq(solderProducts.supplier, supplier),
        code === undefined ? undefined : eq(solderProducts.code, code),
      ),
    )
    .orderBy(desc(solderProducts.id))
    .limit(limit + 1)
    .all();
}

/** By flow point, the hardest first. */
export function allProducts(db: Db): SolderProductRow[] {
  return db.select().from(solderProducts).orderBy(desc(solderProducts.liquidusC), asc(solderProducts.code)).all();
}

export function productsOldestFirst(db: Db): SolderProductRow[] {
  return db.select().from(solderProducts).orderBy(asc(solderProducts.id)).all();
}

export function insertProduct(db: Db, row: typeof solderProducts.$inferInsert): SolderProductRow {
  return db.insert(solderProducts).values(row).returning().get();
}

export function updateProduct(db: Db, id: string, change: Partial<SolderProductRow>): SolderProductRow {
  return db.update(solderProducts).set(change).where(eq(solderProducts.id, id)).returning().get();
}

import { asc, eq, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { metalProducts, solderProducts, suppliers, supplies } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type SupplierRow = typeof suppliers.$inferSelect;

export function findSupplier(db: Db, id: string): SupplierRow | undefined {
  return rowById(db, suppliers, id);
}

/** @throws {Problem} not-found */
export function getSupplier(db: Db, id: string): SupplierRow {
  const row = findSupplier(db, id);
  if (!row) throw notFound('supplier', id);
  return row;
}

/** Large and small letters are the same name. */
export function findSupplierByName(db: Db, name: string): SupplierRow | undefined {
  return db.select().from(suppliers).where(eq(suppliers.name, name)).get();
}

export function listSuppliers(db: Db, { limit, cursor, active }: Page & { active?: boolean | undefined }): SupplierRow[] {
  return newestRows(db, suppliers, { limit, cursor }, { active });
}

export function suppliersOldestFirst(db: Db): SupplierRow[] {
  return db.select().from(suppliers).orderBy(asc(suppliers.id)).all();
}

export function insertSupplier(db: Db, row: typeof suppliers.$inferInsert): SupplierRow {
  return insertRow(db, suppliers, row);
}

export function updateSupplier(db: Db, id: string, change: Partial<SupplierRow>): SupplierRow {
  return updateRow(db, suppliers, id, change);
}

/** Products go with a supplier by its name, so they follow when it changes. */
export function renameOnProducts(db: Db, from: string, to: string): void {
  for (const table of [solderProducts, metalProducts, supplies]) {
    db.update(table)
      .set({ supplier: to })
      .where(sql`${table.supplier} = ${from} COLLATE NOCASE`)
      .run();
  }
}

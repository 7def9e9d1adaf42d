import { and, desc, eq, lt, sql } from 'drizzle-orm';
import { Decimal } from '../../../shared/decimal.ts';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { nowSupplies, supplies, supplyMovements } from '../../platform/db/tables.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';

export type SupplyRow = typeof supplies.$inferSelect;
export type SupplyMovementRow = typeof supplyMovements.$inferSelect;

/** What the ledger of a supply adds up to. */
export interface SupplySums {
  onHandUnits: number;
  /** Used, and not put back. */
  outUnits: number;
  /** Of a gram or a piece; null until some came in. */
  averageCost: Decimal | null;
}

export function findSupply(db: Db, id: string): SupplyRow | undefined {
  return rowById(db, supplies, id);
}

/** @throws {Problem} not-found */
export function getSupply(db: Db, id: string): SupplyRow {
  const row = findSupply(db, id);
  if (!row) throw notFound('supply', id);
  return row;
}

/** Large and small letters are the same name. */
export function findSupplyByName(db: Db, name: string): SupplyRow | undefined {
  return db.select().from(supplies).where(eq(supplies.name, name)).get();
}

/** All after the cursor, newest first: what is to be ordered is not known of a row alone, so the page is cut after. */
export function listSupplies(
  db: Db,
  { cursor, kind, active }: { cursor?: string | undefined; kind?: SupplyRow['kind'] | undefined; active?: boolean | undefined },
): SupplyRow[] {
  return db
    .select()
    .from(supplies)
    .where(
      and(
        cursor === undefined ? undefined : lt(supplies.id, cursor),
        kind === undefined ? undefined : eq(supplies.kind, kind),
        active === undefined ? undefined : eq(supplies.active, active),
      ),
    )
    .orderBy(desc(supplies.id))
    .all();
}

export function insertSupply(db: Db, row: typeof supplies.$inferInsert): SupplyRow {
  return insertRow(db, supplies, row);
}

export function updateSupply(db: Db, id: string, change: Partial<SupplyRow>): SupplyRow {
  return updateRow(db, supplies, id, change);
}

export type NewSupplyMovement = Omit<typeof supplyMovements.$inferInsert, 'id' | 'at' | 'personId'>;

/** Adds one line to the ledger, and its line in the journal. Lines are never edited; a wrong one is reversed. */
export function addSupplyMovement(tx: Db, by: WrittenBy, movement: NewSupplyMovement): SupplyMovementRow {
  const row = insertRow(tx, supplyMovements, { ...movement, id: newId(by.at), at: by.at.toISOString(), personId: by.personId });
  writeJournal(tx, by, { what: 'supply-movement', id: row.id, after: row });
  return row;
}

export function findSupplyMovement(db: Db, id: string): SupplyMovementRow | undefined {
  return rowById(db, supplyMovements, id);
}

export function findSupplyReversalOf(db: Db, id: string): SupplyMovementRow | undefined {
  return db.select().from(supplyMovements).where(eq(supplyMovements.reversesId, id)).get();
}

export function listSupplyMovements(
  db: Db,
  { limit, cursor, supplyId }: Page & { supplyId?: string | undefined },
): SupplyMovementRow[] {
  return newestRows(db, supplyMovements, { limit, cursor }, { supplyId });
}

export function findSums(db: Db, supplyId: string): SupplySums | undefined {
  const row = db.select().from(nowSupplies).where(eq(nowSupplies.supplyId, supplyId)).get();
  if (!row) return undefined;
  const { onHandUnits, outUnits, averageCost } = row;
  return { onHandUnits, outUnits, averageCost: averageCost === null ? null : new Decimal(averageCost) };
}

export function keepSums(tx: Db, supplyId: string, { averageCost, ...sums }: SupplySums): void {
  const row = { supplyId, ...sums, averageCost: averageCost?.toString() ?? null };
  tx.insert(nowSupplies).values(row).onConflictDoUpdate({ target: nowSupplies.supplyId, set: row }).run();
}

/** All movements of a supply in the order they were written. */
export function ledgerOf(db: Db, supplyId: string): SupplyMovementRow[] {
  return db
    .select()
    .from(supplyMovements)
    .where(eq(supplyMovements.supplyId, supplyId))
    .orderBy(sql`rowid`)
    .all();
}

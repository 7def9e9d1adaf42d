import { and, desc, eq, lt, sql, type SQL } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { pieces, stockMovements } from '../../platform/db/tables.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import type { Page } from '../../platform/http/paging.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';

export type MovementRow = typeof stockMovements.$inferSelect;

type NewMovement = Omit<typeof stockMovements.$inferInsert, 'id' | 'at' | 'recordedAt' | 'personId'> & { at?: Date | undefined };

/** Adds one line to the ledger, and its line in the journal. Lines are never edited; a wrong one is reversed. */
export function addMovement(tx: Db, by: WrittenBy, { at, ...movement }: NewMovement): MovementRow {
  const row = tx
    .insert(stockMovements)
    .values({
      ...movement,
      id: newId(by.at),
      at: (at ?? by.at).toISOString(),
      recordedAt: by.at.toISOString(),
      personId: by.personId,
    })
    .returning()
    .get();
  writeJournal(tx, by, { what: 'stock-movement', id: row.id, after: row });
  return row;
}

export function findMovement(db: Db, id: string): MovementRow | undefined {
  return db.select().from(stockMovements).where(eq(stockMovements.id, id)).get();
}

export function findReversalOf(db: Db, id: string): MovementRow | undefined {
  return db.select().from(stockMovements).where(eq(stockMovements.reversesId, id)).get();
}

export interface MovementFilter {
  lotId?: string | undefined;
  productId?: string | undefined;
  pieceId?: string | undefined;
}

export function listMovements(db: Db, { limit, cursor, ...filter }: Page & MovementFilter): MovementRow[] {
  return db
    .select()
    .from(stockMovements)
    .where(and(cursor === undefined ? undefined : lt(stockMovements.id, cursor), matching(filter)))
    .orderBy(desc(stockMovements.id))
    .limit(limit + 1)
    .all();
}

/** The whole ledger in the order it was written. */
export function allMovements(db: Db, filter: MovementFilter = {}): MovementRow[] {
  return db
    .select()
    .from(stockMovements)
    .where(matching(filter))
    .orderBy(sql`rowid`)
    .all();
}

/** On hand in one lot: the sum of its movements. */
export function onHandOf(db: Db, lotId: string): number {
  const row = db.select({ tenthMg: onHandSum }).from(stockMovements).where(eq(stockMovements.lotId, lotId)).get();
  return row?.tenthMg ?? 0;
}

/** On hand by lot. */
export function onHandByLot(db: Db): Map<string | null, number> {
  const rows = db
    .select({ lotId: stockMovements.lotId, tenthMg: onHandSum })
    .from(stockMovements)
    .groupBy(stockMovements.lotId)
    .all();
  return new Map(rows.map(({ lotId, tenthMg }) => [lotId, tenthMg]));
}

/** Held by product, for all pieces. */
export function heldByProduct(db: Db): Map<string, number> {
  const rows = db
    .select({ productId: stockMovements.productId, tenthMg: heldSum })
    .from(stockMovements)
    .groupBy(stockMovements.productId)
    .all();
  return new Map(rows.map(({ productId, tenthMg }) => [productId, tenthMg]));
}

/** What is held for a piece, by product; only what is not zero. */
export function heldForPiece(db: Db, pieceId: string): { productId: string; tenthMg: number }[] {
  return db
    .select({ productId: stockMovements.productId, tenthMg: heldSum })
    .from(stockMovements)
    .where(eq(stockMovements.pieceId, pieceId))
    .groupBy(stockMovements.productId)
    .having(sql`sum(${stockMovements.heldTenthMg}) <> 0`)
    .all();
}

/** Pieces are another feature's; a movement may name one. */
export function pieceExists(db: Db, id: string): boolean {
  return db.select({ id: pieces.id }).from(pieces).where(eq(pieces.id, id)).get() !== undefined;
}

const onHandSum = sql<number>`coalesce(sum(${stockMovements.onHandTenthMg}), 0)`;
const heldSum = sql<number>`coalesce(sum(${stockMovements.heldTenthMg}), 0)`;

function matching({ lotId, productId, pieceId }: MovementFilter): SQL | undefined {
  return and(
    lotId === undefined ? undefined : eq(stockMovements.lotId, lotId),
    productId === undefined ? undefined : eq(stockMovements.productId, productId),
    pieceId === undefined ? undefined : eq(stockMovements.pieceId, pieceId),
  );
}

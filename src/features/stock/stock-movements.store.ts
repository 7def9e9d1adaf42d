import { and, desc, eq, gte, inArray, isNotNull, lt, lte, ne, sql, type SQL } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById } from '../../platform/db/rows.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { heats, nowSolderLots, nowSolderPieces, nowSolderProducts, pieces, stockMovements } from '../../platform/db/tables.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import type { Page } from '../../platform/http/paging.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';

const { pieceId, productId, heldTenthMg } = nowSolderPieces;

export type MovementRow = typeof stockMovements.$inferSelect;

type NewMovement = Omit<typeof stockMovements.$inferInsert, 'id' | 'at' | 'recordedAt' | 'personId'> & { at?: Date | undefined };

/** Adds one line to the ledger, and its line in the journal. Lines are never edited; a wrong one is reversed. */
export function addMovement(tx: Db, by: WrittenBy, { at, ...movement }: NewMovement): MovementRow {
  const row = insertRow(tx, stockMovements, {
    ...movement,
    id: newId(by.at),
    at: (at ?? by.at).toISOString(),
    recordedAt: by.at.toISOString(),
    personId: by.personId,
  });
  writeJournal(tx, by, { what: 'stock-movement', id: row.id, after: row });
  return row;
}

export function findMovement(db: Db, id: string): MovementRow | undefined {
  return rowById(db, stockMovements, id);
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
  return db.select().from(nowSolderLots).where(eq(nowSolderLots.lotId, lotId)).get()?.onHandTenthMg ?? 0;
}

/** What the book says a lot held at a moment, by all that is known of it now. */
export function onHandAt(db: Db, lotId: string, at: Date): number {
  const before = and(eq(stockMovements.lotId, lotId), lte(stockMovements.at, at.toISOString()));
  return db.select({ tenthMg: onHandSum }).from(stockMovements).where(before).get()?.tenthMg ?? 0;
}

/** On hand by lot, of lots that hold something. */
export function onHandByLot(db: Db): Map<string, number> {
  const rows = db
    .select()
    .from(nowSolderLots)
    .where(sql`${nowSolderLots.onHandTenthMg} <> 0`)
    .all();
  return new Map(rows.map(({ lotId, onHandTenthMg }) => [lotId, onHandTenthMg]));
}

/** Held by product, for all pieces. */
export function heldByProduct(db: Db): Map<string, number> {
  const rows = db.select().from(nowSolderProducts).all();
  return new Map(rows.map(({ productId, heldTenthMg }) => [productId, heldTenthMg]));
}

/** What work took and put back, as it stands after reversals, in the order it was written. */
export function usesStanding(
  db: Db,
  { since, before, productId: ofProduct }: { since: string | null; before: string | null; productId?: string },
): MovementRow[] {
  const { at, kind, productId: product } = stockMovements;
  return db
    .select()
    .from(stockMovements)
    .where(
      and(
        inArray(kind, ['use', 'scrap', 'put_back']),
        since === null ? undefined : gte(at, since),
        before === null ? undefined : lt(at, before),
        ofProduct === undefined ? undefined : eq(product, ofProduct),
        sql`NOT EXISTS (SELECT 1 FROM ${stockMovements} AS reversal WHERE reversal.reverses_id = ${stockMovements}.id)`,
      ),
    )
    .orderBy(sql`${stockMovements}.rowid`)
    .all();
}

/** When the first line of a product was of. */
export function firstMoment(db: Db, productId: string): string | undefined {
  const { at } = stockMovements;
  return db.select({ at }).from(stockMovements).where(eq(stockMovements.productId, productId)).orderBy(at).limit(1).get()?.at;
}

/** The most that work on one piece took of a product and still holds. */
export function mostOnePiece(db: Db, productId: string): number {
  const most = sql<number>`${nowSolderPieces.usedTenthMg} + ${nowSolderPieces.heldTenthMg}`;
  const row = db
    .select({ most })
    .from(nowSolderPieces)
    .where(eq(nowSolderPieces.productId, productId))
    .orderBy(desc(most))
    .limit(1)
    .get();
  return Math.max(0, row?.most ?? 0);
}

/** The line that took solder for a heat, the last if there are several. */
export function lastUseIn(db: Db, heatId: string): MovementRow | undefined {
  return lastUse(db).get({ heatId });
}

const lastUse = prepared((db) =>
  db
    .select()
    .from(stockMovements)
    .where(
      and(
        eq(stockMovements.heatId, sql.placeholder('heatId')),
        eq(stockMovements.kind, 'use'),
        lt(stockMovements.onHandTenthMg, 0),
      ),
    )
    .orderBy(sql`rowid DESC`)
    .limit(1)
    .prepare(),
);

/** What is held, by piece and product; only what is above nothing. */
export function heldByPiece(db: Db): { pieceId: string; productId: string; tenthMg: number }[] {
  return db
    .select({ pieceId, productId, tenthMg: heldTenthMg })
    .from(nowSolderPieces)
    .where(sql`${heldTenthMg} <> 0 AND ${heldTenthMg} > 0`)
    .orderBy(pieceId, productId)
    .all();
}

/** What is held for a piece, by product; only what is not zero. */
export function heldForPiece(db: Db, ofPiece: string): { productId: string; tenthMg: number }[] {
  return db
    .select({ productId, tenthMg: heldTenthMg })
    .from(nowSolderPieces)
    .where(and(eq(nowSolderPieces.pieceId, ofPiece), ne(heldTenthMg, 0)))
    .orderBy(productId)
    .all();
}

const PLACED = ['primed', 'alight', 'cooling', 'in_pickle', 'looking'];

/** What heats other than one have placed and not booked yet, by lot. */
export function placedByOtherHeats(db: Db, heatId: string): Map<string, number> {
  const rows = db
    .select({ lotId: heats.lotId, tenthMg: sql<number>`sum(${heats.plannedTenthMg})` })
    .from(heats)
    .where(and(isNotNull(heats.lotId), inArray(heats.state, PLACED), ne(heats.id, heatId)))
    .groupBy(heats.lotId)
    .all();
  return new Map(rows.map(({ lotId, tenthMg }) => [lotId!, tenthMg]));
}

/** Whether what was held of a product for a piece was let go after a movement was written. */
export function freedAfter(db: Db, { id, pieceId, productId }: { id: string; pieceId: string; productId: string }): boolean {
  const found = db
    .select({ id: stockMovements.id })
    .from(stockMovements)
    .where(
      and(
        eq(stockMovements.pieceId, pieceId),
        eq(stockMovements.productId, productId),
        eq(stockMovements.kind, 'free'),
        sql`${stockMovements}.rowid > (select written.rowid from stock_movements written where written.id = ${id})`,
      ),
    )
    .limit(1)
    .get();
  return found !== undefined;
}

/** Pieces are another feature's; a movement may name one. */
export function pieceExists(db: Db, id: string): boolean {
  return db.select({ id: pieces.id }).from(pieces).where(eq(pieces.id, id)).get() !== undefined;
}

const onHandSum = sql<number>`coalesce(sum(${stockMovements.onHandTenthMg}), 0)`;

function matching({ lotId, productId, pieceId }: MovementFilter): SQL | undefined {
  return and(
    lotId === undefined ? undefined : eq(stockMovements.lotId, lotId),
    productId === undefined ? undefined : eq(stockMovements.productId, productId),
    pieceId === undefined ? undefined : eq(stockMovements.pieceId, pieceId),
  );
}

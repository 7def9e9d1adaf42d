import { and, count, desc, eq, gt, isNotNull, isNull, notInArray, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import {
  designs,
  metalLots,
  metalMovements,
  metalProducts,
  pieces,
  scrapReturnPieces,
  scrapReturns,
} from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type ScrapReturnRow = typeof scrapReturns.$inferSelect;
type Jar = ScrapReturnRow['jar'];

/** @throws {Problem} not-found */
export function getReturn(db: Db, id: string): ScrapReturnRow {
  const row = rowById(db, scrapReturns, id);
  if (!row) throw notFound('scrap return', id);
  return row;
}

export function listReturns(db: Db, { limit, cursor, jar }: Page & { jar?: Jar | undefined }): ScrapReturnRow[] {
  return newestRows(db, scrapReturns, { limit, cursor }, { jar });
}

export function insertReturn(db: Db, row: typeof scrapReturns.$inferInsert): ScrapReturnRow {
  return insertRow(db, scrapReturns, row);
}

export function updateReturn(db: Db, id: string, change: Partial<ScrapReturnRow>): ScrapReturnRow {
  return updateRow(db, scrapReturns, id, change);
}

export function insertReturnPiece(db: Db, row: typeof scrapReturnPieces.$inferInsert): void {
  db.insert(scrapReturnPieces).values(row).run();
}

/** Its pieces have what they left in their jar again. */
export function dropReturnPieces(db: Db, returnId: string): void {
  db.delete(scrapReturnPieces).where(eq(scrapReturnPieces.returnId, returnId)).run();
}

export function piecesInReturn(db: Db, returnId: string): number {
  return db.select({ some: count() }).from(scrapReturnPieces).where(eq(scrapReturnPieces.returnId, returnId)).get()!.some;
}

/** Pieces that left something in a jar which no return has taken yet: filings of what was built, the metal of what was scrapped. */
export function piecesWaiting(db: Db, jar: 'filings' | 'solder_bearing') {
  const settled = db.select({ id: scrapReturnPieces.pieceId }).from(scrapReturnPieces).where(eq(scrapReturnPieces.jar, jar));
  return db
    .select({
      id: pieces.id,
      metal: pieces.metal,
      issuedTenthMg: pieces.metalIssuedTenthMg,
      returnedTenthMg: pieces.metalReturnedTenthMg,
    })
    .from(pieces)
    .where(
      and(jar === 'filings' ? isNotNull(pieces.builtBy) : isNotNull(pieces.metalReturnedTenthMg), notInArray(pieces.id, settled)),
    )
    .all();
}

/** The design a piece was made by: its newest. */
export function designOf(db: Db, pieceId: string) {
  return db.select().from(designs).where(eq(designs.pieceId, pieceId)).orderBy(desc(designs.number)).limit(1).get();
}

/** Offcuts of our own metal that went into their jar since it was last sent. */
export function offcutsSince(db: Db, since: string | null): { tenthMg: number; finenessFraction: number }[] {
  const reversed = db
    .select({ id: sql<string>`${metalMovements.reversesId}` })
    .from(metalMovements)
    .where(isNotNull(metalMovements.reversesId));
  return db
    .select({ tenthMg: metalMovements.onHandTenthMg, finenessFraction: metalProducts.finenessFraction })
    .from(metalMovements)
    .innerJoin(metalLots, eq(metalLots.id, metalMovements.lotId))
    .innerJoin(metalProducts, eq(metalProducts.id, metalLots.productId))
    .where(
      and(
        eq(metalMovements.kind, 'scrap'),
        isNull(metalLots.commissionId),
        notInArray(metalMovements.id, reversed),
        since === null ? undefined : gt(metalMovements.recordedAt, since),
      ),
    )
    .all()
    .map(({ tenthMg, finenessFraction }) => ({ tenthMg: -tenthMg, finenessFraction }));
}

/** The return a jar was last sent with. */
export function lastReturnOf(db: Db, jar: Jar): ScrapReturnRow | undefined {
  return db
    .select()
    .from(scrapReturns)
    .where(and(eq(scrapReturns.jar, jar), isNull(scrapReturns.takenBack)))
    .orderBy(desc(scrapReturns.id))
    .limit(1)
    .get();
}

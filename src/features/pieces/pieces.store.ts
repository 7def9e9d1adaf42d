import { and, desc, eq, inArray, lt, max, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById, updateVersion } from '../../platform/db/rows.ts';
import type { Role } from '../../platform/db/json-columns.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { commissions, designs, people, pieces } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { practicePieces } from './known-pieces.ts';

export type PieceRow = typeof pieces.$inferSelect;
export type DesignRow = typeof designs.$inferSelect;
type CommissionRow = typeof commissions.$inferSelect;

export function findPiece(db: Db, id: string): PieceRow | undefined {
  return rowById(db, pieces, id);
}

export function listPieces(
  db: Db,
  {
    limit,
    cursor,
    commissionId,
    state,
    practiceOnly,
  }: Page & { commissionId?: string | undefined; state?: string | undefined; practiceOnly: boolean },
): PieceRow[] {
  return db
    .select()
    .from(pieces)
    .where(
      and(
        cursor === undefined ? undefined : lt(pieces.id, cursor),
        commissionId === undefined ? undefined : eq(pieces.commissionId, commissionId),
        state === undefined ? undefined : eq(pieces.state, state),
        practiceOnly ? inArray(pieces.id, practicePieces(db)) : undefined,
      ),
    )
    .orderBy(desc(pieces.id))
    .limit(limit + 1)
    .all();
}

/** All pieces of a commission, by serial. */
export function piecesOf(db: Db, commissionId: string): PieceRow[] {
  return db.select().from(pieces).where(eq(pieces.commissionId, commissionId)).orderBy(pieces.serial).all();
}

/** The same of many commissions, read together. */
export function piecesOfAll(db: Db, commissionIds: readonly string[]): PieceRow[] {
  return db.select().from(pieces).where(isAmong(pieces.commissionId, commissionIds)).orderBy(pieces.serial).all();
}

/** The pieces of a commission that count, by serial: what was scrapped is replaced by its remake. */
export function livePiecesOf(db: Db, commissionId: string): PieceRow[] {
  return piecesOf(db, commissionId).filter(({ state }) => state !== 'scrapped');
}

export function highestSerial(db: Db, commissionId: string): number {
  return (
    db
      .select({ last: max(pieces.serial) })
      .from(pieces)
      .where(eq(pieces.commissionId, commissionId))
      .get()?.last ?? 0
  );
}

export function insertPiece(db: Db, row: typeof pieces.$inferInsert): PieceRow {
  return insertRow(db, pieces, row);
}

/** Every change is a new version of the row. */
export function updatePiece(db: Db, id: string, change: Partial<PieceRow>): PieceRow {
  return updateVersion(db, pieces, id, change);
}

export function findRemakeOf(db: Db, pieceId: string): PieceRow | undefined {
  return db.select().from(pieces).where(eq(pieces.remakeOfPieceId, pieceId)).get();
}

export function findCommission(db: Db, id: string): CommissionRow | undefined {
  return rowById(db, commissions, id);
}

/** Roles of everyone who works here now. */
export function rolesOfActive(db: Db): Role[][] {
  return db
    .select({ roles: people.roles })
    .from(people)
    .where(eq(people.active, true))
    .all()
    .map(({ roles }) => roles);
}

export function findPerson(db: Db, id: string): typeof people.$inferSelect | undefined {
  return rowById(db, people, id);
}

export function findDesign(db: Db, id: string): DesignRow | undefined {
  return rowById(db, designs, id);
}

/** The newest version of a piece's design. */
export function findCurrentDesign(db: Db, pieceId: string): DesignRow | undefined {
  return db.select().from(designs).where(eq(designs.pieceId, pieceId)).orderBy(desc(designs.number)).limit(1).get();
}

/** The newest version of the design of each of these pieces that has one. */
export function findCurrentDesigns(db: Db, pieceIds: readonly string[]): DesignRow[] {
  const newest = sql`(SELECT max(number) FROM designs AS its WHERE its.piece_id = ${designs.pieceId})`;
  return db
    .select()
    .from(designs)
    .where(and(inArray(designs.pieceId, [...pieceIds]), eq(designs.number, newest)))
    .all();
}

export function insertDesign(db: Db, row: typeof designs.$inferInsert): DesignRow {
  return insertRow(db, designs, row);
}

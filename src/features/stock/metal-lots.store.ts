import { and, asc, count, desc, eq, lt, sql, type SQL } from 'drizzle-orm';
import { groupBy } from '../../../shared/group-by.ts';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById } from '../../platform/db/rows.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { commissions, metalLots, metalMovements, metalProducts, nowMetalLots, pieces } from '../../platform/db/tables.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { MetalProductRow } from './metal-products.store.ts';

export type MetalLotRow = typeof metalLots.$inferSelect;
export type MetalMovementRow = typeof metalMovements.$inferSelect;

export function findMetalLot(db: Db, id: string): MetalLotRow | undefined {
  return rowById(db, metalLots, id);
}

/** @throws {Problem} not-found */
export function getMetalLot(db: Db, id: string): MetalLotRow {
  const row = findMetalLot(db, id);
  if (!row) throw notFound('metal lot', id);
  return row;
}

export interface MetalLotFilter {
  productId?: string | undefined;
  commissionId?: string | undefined;
}

export function listMetalLots(db: Db, { limit, cursor, productId, commissionId }: Page & MetalLotFilter): MetalLotRow[] {
  return newestRows(db, metalLots, { limit, cursor }, { productId, commissionId });
}

/** In the order they came in, each with what it is. */
export function metalLotsOldestFirst(db: Db): { lot: MetalLotRow; product: MetalProductRow }[] {
  return db
    .select({ lot: metalLots, product: metalProducts })
    .from(metalLots)
    .innerJoin(metalProducts, eq(metalProducts.id, metalLots.productId))
    .orderBy(asc(metalLots.receivedOn), sql`${metalLots}.rowid`)
    .all();
}

export function findMetalLotByNumber(db: Db, number: string): MetalLotRow | undefined {
  return db.select().from(metalLots).where(eq(metalLots.number, number)).get();
}

export function insertMetalLot(db: Db, row: typeof metalLots.$inferInsert): MetalLotRow {
  return insertRow(db, metalLots, row);
}

type NewMovement = Omit<typeof metalMovements.$inferInsert, 'id' | 'at' | 'recordedAt' | 'personId'> & { at?: Date | undefined };

/** Adds one line to the ledger of metal, and its line in the journal. Lines are never edited; a wrong one is reversed. */
export function addMetalMovement(tx: Db, by: WrittenBy, { at, ...movement }: NewMovement): MetalMovementRow {
  const row = insertRow(tx, metalMovements, {
    ...movement,
    id: newId(by.at),
    at: (at ?? by.at).toISOString(),
    recordedAt: by.at.toISOString(),
    personId: by.personId,
  });
  writeJournal(tx, by, { what: 'metal-movement', id: row.id, after: row });
  return row;
}

export function findMetalMovement(db: Db, id: string): MetalMovementRow | undefined {
  return rowById(db, metalMovements, id);
}

export function findMetalReversalOf(db: Db, id: string): MetalMovementRow | undefined {
  return db.select().from(metalMovements).where(eq(metalMovements.reversesId, id)).get();
}

export interface MetalMovementFilter {
  lotId?: string | undefined;
  pieceId?: string | undefined;
}

export function listMetalMovements(db: Db, { limit, cursor, ...filter }: Page & MetalMovementFilter): MetalMovementRow[] {
  return db
    .select()
    .from(metalMovements)
    .where(and(cursor === undefined ? undefined : lt(metalMovements.id, cursor), matching(filter)))
    .orderBy(desc(metalMovements.id))
    .limit(limit + 1)
    .all();
}

/** The whole ledger of metal in the order it was written. */
export function allMetalMovements(db: Db, filter: MetalMovementFilter = {}): MetalMovementRow[] {
  return db
    .select()
    .from(metalMovements)
    .where(matching(filter))
    .orderBy(sql`rowid`)
    .all();
}

export function metalOnHandOf(db: Db, lotId: string): number {
  return db.select().from(nowMetalLots).where(eq(nowMetalLots.lotId, lotId)).get()?.onHandTenthMg ?? 0;
}

export function metalMovementCount(db: Db, lotId: string): number {
  return db.select({ some: count() }).from(metalMovements).where(eq(metalMovements.lotId, lotId)).get()?.some ?? 0;
}

export function metalOnHandByLot(db: Db): Map<string, number> {
  const rows = db.select().from(nowMetalLots).all();
  return new Map(rows.map(({ lotId, onHandTenthMg }) => [lotId, onHandTenthMg]));
}

/** The piece a movement names, with the metal and commission it is of. */
export function pieceNamed(
  db: Db,
  id: string,
): { number: string; metal: string; commissionId: string; state: string } | undefined {
  return db
    .select({ number: pieces.number, metal: pieces.metal, commissionId: pieces.commissionId, state: pieces.state })
    .from(pieces)
    .where(eq(pieces.id, id))
    .get();
}

/** The commission that metal was left for. */
export function commissionNumber(db: Db, id: string): string | undefined {
  return db.select({ number: commissions.number }).from(commissions).where(eq(commissions.id, id)).get()?.number;
}

export interface MetalIssued {
  issuedTenthMg: number;
  putBackTenthMg: number;
}

/** What was issued to a piece and what of it was put back, tenths of a milligram; what was reversed is not in it. */
export function issuedToPiece(db: Db, pieceId: string): MetalIssued {
  return totalsOf(allMetalMovements(db, { pieceId }));
}

/** The same of each of many pieces that anything was issued to. */
export function issuedToPieces(db: Db, pieceIds: readonly string[]): Map<string | null, MetalIssued> {
  const all = db
    .select()
    .from(metalMovements)
    .where(isAmong(metalMovements.pieceId, pieceIds))
    .orderBy(sql`rowid`)
    .all();
  return new Map([...groupBy(all, ({ pieceId }) => pieceId)].map(([pieceId, own]) => [pieceId, totalsOf(own)]));
}

/** The same of lots that are as one alone: of that metal, and ours or the client's. */
export function issuedLike(db: Db, pieceId: string, lot: MetalLotRow): MetalIssued {
  const like = new Set(
    db
      .select({ id: metalLots.id, commissionId: metalLots.commissionId })
      .from(metalLots)
      .innerJoin(metalProducts, eq(metalProducts.id, metalLots.productId))
      .where(
        eq(
          metalProducts.metal,
          db.select({ metal: metalProducts.metal }).from(metalProducts).where(eq(metalProducts.id, lot.productId)),
        ),
      )
      .all()
      .filter(({ commissionId }) => commissionId === lot.commissionId)
      .map(({ id }) => id),
  );
  return totalsOf(allMetalMovements(db, { pieceId }).filter(({ lotId }) => like.has(lotId)));
}

function totalsOf(all: MetalMovementRow[]): MetalIssued {
  const reversed = new Set(all.map(({ reversesId }) => reversesId));
  const totalOf = (kind: string) =>
    all
      .filter((movement) => movement.kind === kind && !reversed.has(movement.id))
      .reduce((total, { onHandTenthMg }) => total + onHandTenthMg, 0);
  return { issuedTenthMg: -totalOf('issue') + 0, putBackTenthMg: totalOf('put_back') };
}

function matching({ lotId, pieceId }: MetalMovementFilter): SQL | undefined {
  return and(
    lotId === undefined ? undefined : eq(metalMovements.lotId, lotId),
    pieceId === undefined ? undefined : eq(metalMovements.pieceId, pieceId),
  );
}

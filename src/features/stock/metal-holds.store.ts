import { and, eq, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow } from '../../platform/db/rows.ts';
import { metalHolds, metalLots, metalMovements, metalProducts, nowMetalHolds } from '../../platform/db/tables.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';

export type MetalHoldRow = typeof metalHolds.$inferSelect;

type NewHold = Omit<typeof metalHolds.$inferInsert, 'id' | 'at' | 'recordedAt' | 'personId'> & { at?: Date | undefined };

/** Adds a line to what is held of metal, and its line in the journal. */
export function addMetalHold(tx: Db, by: WrittenBy, { at, ...hold }: NewHold): MetalHoldRow {
  const row = insertRow(tx, metalHolds, {
    ...hold,
    id: newId(by.at),
    at: (at ?? by.at).toISOString(),
    recordedAt: by.at.toISOString(),
    personId: by.personId,
  });
  writeJournal(tx, by, { what: 'metal-hold', id: row.id, after: row });
  return row;
}

export function allMetalHolds(db: Db): MetalHoldRow[] {
  return db
    .select()
    .from(metalHolds)
    .orderBy(sql`rowid`)
    .all();
}

export interface HeldMetal {
  pieceId: string;
  metal: string;
  productId: string | null;
  tenthMg: number;
}

/** What is held, by piece and what its parts are cut from; only what is not zero. */
export function heldMetal(db: Db, pieceId?: string): HeldMetal[] {
  return db
    .select()
    .from(nowMetalHolds)
    .where(and(sql`${nowMetalHolds.heldTenthMg} <> 0`, pieceId === undefined ? undefined : eq(nowMetalHolds.pieceId, pieceId)))
    .orderBy(nowMetalHolds.firstLine)
    .all()
    .map(({ cutFrom, heldTenthMg, firstLine: _line, ...held }) => ({
      ...held,
      productId: cutFrom === '' ? null : cutFrom,
      tenthMg: heldTenthMg,
    }));
}

/** What an issue took out of what was held. */
export function takenBy(db: Db, movementId: string): MetalHoldRow[] {
  return db.select().from(metalHolds).where(eq(metalHolds.movementId, movementId)).all();
}

/** Whether metal was ever held for a piece. */
export function wasHeld(db: Db, pieceId: string): boolean {
  return db.select({ id: metalHolds.id }).from(metalHolds).where(eq(metalHolds.pieceId, pieceId)).limit(1).get() !== undefined;
}

/** Whether all that was held for a piece was let go. */
export function wasLetGo(db: Db, pieceId: string): boolean {
  const last = db
    .select({ kind: metalHolds.kind })
    .from(metalHolds)
    .where(and(eq(metalHolds.pieceId, pieceId), eq(metalHolds.kind, 'free')))
    .limit(1)
    .get();
  return last !== undefined;
}

/** On hand of what a client left for a commission, by metal. */
export function clientMetalOf(db: Db, commissionId: string): Map<string, number> {
  const rows = db
    .select({ metal: metalProducts.metal, tenthMg: sql<number>`sum(${metalMovements.onHandTenthMg})` })
    .from(metalMovements)
    .innerJoin(metalLots, eq(metalLots.id, metalMovements.lotId))
    .innerJoin(metalProducts, eq(metalProducts.id, metalLots.productId))
    .where(eq(metalLots.commissionId, commissionId))
    .groupBy(metalProducts.metal)
    .all();
  return new Map(rows.map(({ metal, tenthMg }) => [metal, tenthMg]));
}

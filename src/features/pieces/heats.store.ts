import { and, desc, eq, gt, inArray, isNotNull, lt, ne, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { cautionTicks, heats, pieces, solderLots, solderProducts } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { practicePieces } from './known-pieces.ts';

export type HeatRow = typeof heats.$inferSelect;

export function findHeat(db: Db, id: string): HeatRow | undefined {
  return db.select().from(heats).where(eq(heats.id, id)).get();
}

export interface HeatQuery extends Page {
  pieceId?: string | undefined;
  planId?: string | undefined;
  state?: string | undefined;
  practiceOnly: boolean;
}

/** Heats, newest first. */
export function listHeats(db: Db, { limit, cursor, pieceId, planId, state, practiceOnly }: HeatQuery): HeatRow[] {
  return db
    .select()
    .from(heats)
    .where(
      and(
        cursor === undefined ? undefined : lt(heats.id, cursor),
        pieceId === undefined ? undefined : eq(heats.pieceId, pieceId),
        planId === undefined ? undefined : eq(heats.planId, planId),
        state === undefined ? undefined : eq(heats.state, state),
        practiceOnly ? inArray(heats.pieceId, practicePieces(db)) : undefined,
      ),
    )
    .orderBy(desc(heats.id))
    .limit(limit + 1)
    .all();
}

/** Heats of a piece in some states, in the order of their numbers. */
export function heatsOf(db: Db, pieceId: string, states?: string[]): HeatRow[] {
  const inStates = states === undefined ? undefined : inArray(heats.state, states);
  return db
    .select()
    .from(heats)
    .where(and(eq(heats.pieceId, pieceId), inStates))
    .orderBy(heats.number)
    .all();
}

export function heatsOfPlan(db: Db, planId: string): HeatRow[] {
  return db.select().from(heats).where(eq(heats.planId, planId)).orderBy(heats.position).all();
}

/** Whether a flame was ever on this piece. */
export function wasAlight(db: Db, pieceId: string): boolean {
  const lit = and(eq(heats.pieceId, pieceId), isNotNull(heats.alightAt));
  return db.select({ id: heats.id }).from(heats).where(lit).limit(1).get() !== undefined;
}

/** Another heat that this person has alight, or that is alight on this piece. */
export function findAlight(db: Db, { id, pieceId }: HeatRow, personId: string) {
  return db
    .select({ number: heats.number, piece: pieces.number, pieceId: heats.pieceId })
    .from(heats)
    .innerJoin(pieces, eq(pieces.id, heats.pieceId))
    .where(and(eq(heats.state, 'alight'), ne(heats.id, id), sql`(${heats.litBy} = ${personId} OR ${heats.pieceId} = ${pieceId})`))
    .limit(1)
    .get();
}

export function insertHeat(db: Db, row: typeof heats.$inferInsert): HeatRow {
  return db.insert(heats).values(row).returning().get();
}

export function updateHeat(db: Db, id: string, change: Partial<HeatRow>): HeatRow {
  return db
    .update(heats)
    .set({ ...change, version: sql`${heats.version} + 1` })
    .where(eq(heats.id, id))
    .returning()
    .get();
}

export function productOf(db: Db, { productId }: HeatRow): typeof solderProducts.$inferSelect | undefined {
  return productId === null ? undefined : db.select().from(solderProducts).where(eq(solderProducts.id, productId)).get();
}

export function lotOf(db: Db, { lotId }: HeatRow): typeof solderLots.$inferSelect | undefined {
  return lotId === null ? undefined : db.select().from(solderLots).where(eq(solderLots.id, lotId)).get();
}

/** Cautions that a person has ticked, each with the last time. */
export function ticksOf(db: Db, personId: string): { cautionId: string; at: string }[] {
  return db
    .select({ cautionId: cautionTicks.cautionId, at: sql<string>`max(${cautionTicks.at})` })
    .from(cautionTicks)
    .where(eq(cautionTicks.personId, personId))
    .groupBy(cautionTicks.cautionId)
    .all();
}

export function putTick(db: Db, row: typeof cautionTicks.$inferInsert): void {
  db.insert(cautionTicks)
    .values(row)
    .onConflictDoUpdate({
      target: [cautionTicks.heatId, cautionTicks.personId, cautionTicks.cautionId],
      set: { at: row.at },
    })
    .run();
}

/** Later heats of the same plan. */
export function heatsAfter(db: Db, { planId, position }: HeatRow, states: string[]): HeatRow[] {
  return db
    .select()
    .from(heats)
    .where(and(eq(heats.planId, planId), gt(heats.position, position), inArray(heats.state, states)))
    .orderBy(heats.position)
    .all();
}

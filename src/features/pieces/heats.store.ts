import { and, desc, eq, gt, inArray, isNotNull, lt, lte, ne, or, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById, updateVersion } from '../../platform/db/rows.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { benches, cautionTicks, heats, people, pieces, solderLots, solderProducts } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { practicePieces } from './known-pieces.ts';

export type HeatRow = typeof heats.$inferSelect;

export function findHeat(db: Db, id: string): HeatRow | undefined {
  return rowById(db, heats, id);
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

/** Another heat that was lit by then and still is: at this bench, by this person or on this piece. */
export function findAlight(
  db: Db,
  { id, pieceId }: HeatRow,
  { personId, benchId, at }: { personId: string; benchId: string | null; at: string },
) {
  const here = or(
    eq(heats.litBy, personId),
    eq(heats.pieceId, pieceId),
    benchId === null ? undefined : eq(heats.benchId, benchId),
  );
  return db
    .select({
      heatId: heats.id,
      number: heats.number,
      piece: pieces.number,
      litBy: people.name,
      bench: benches.name,
      alightAt: heats.alightAt,
    })
    .from(heats)
    .innerJoin(pieces, eq(pieces.id, heats.pieceId))
    .innerJoin(people, eq(people.id, heats.litBy))
    .leftJoin(benches, eq(benches.id, heats.benchId))
    .where(and(eq(heats.state, 'alight'), ne(heats.id, id), lte(heats.alightAt, at), here))
    .limit(1)
    .get();
}

export function insertHeat(db: Db, row: typeof heats.$inferInsert): HeatRow {
  return insertRow(db, heats, row);
}

export function updateHeat(db: Db, id: string, change: Partial<HeatRow>): HeatRow {
  return updateVersion(db, heats, id, change);
}

export function productOf(db: Db, { productId }: HeatRow): typeof solderProducts.$inferSelect | undefined {
  return productId === null ? undefined : productById(db).get({ id: productId });
}

const productById = prepared((db) =>
  db
    .select()
    .from(solderProducts)
    .where(eq(solderProducts.id, sql.placeholder('id')))
    .prepare(),
);

export function lotOf(db: Db, { lotId }: HeatRow): typeof solderLots.$inferSelect | undefined {
  return lotId === null ? undefined : lotById(db).get({ id: lotId });
}

const lotById = prepared((db) =>
  db
    .select()
    .from(solderLots)
    .where(eq(solderLots.id, sql.placeholder('id')))
    .prepare(),
);

/** The last tick of one caution by a person before a moment, and what was read then. */
export function lastTickOf(
  db: Db,
  asked: { personId: string; cautionId: string; before: string },
): { at: string; words: string | null } | undefined {
  return lastTick(db).get(asked);
}

const lastTick = prepared((db) =>
  db
    .select({ at: cautionTicks.at, words: cautionTicks.words })
    .from(cautionTicks)
    .where(
      and(
        eq(cautionTicks.personId, sql.placeholder('personId')),
        eq(cautionTicks.cautionId, sql.placeholder('cautionId')),
        lt(cautionTicks.at, sql.placeholder('before')),
      ),
    )
    .orderBy(desc(cautionTicks.at))
    .limit(1)
    .prepare(),
);

export function putTick(db: Db, row: typeof cautionTicks.$inferInsert): void {
  db.insert(cautionTicks)
    .values(row)
    .onConflictDoUpdate({
      target: [cautionTicks.heatId, cautionTicks.personId, cautionTicks.cautionId],
      set: { at: row.at, words: row.words },
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

import { and, desc, eq, inArray, lt, max, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateVersion } from '../../platform/db/rows.ts';
import { designs, journal, people, plans, stockMovements } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type PlanRow = typeof plans.$inferSelect;

export function findPlan(db: Db, id: string): PlanRow | undefined {
  return rowById(db, plans, id);
}

/** @throws {Problem} not-found */
export function getPlan(db: Db, id: string): PlanRow {
  const row = findPlan(db, id);
  if (!row) throw notFound('plan', id);
  return row;
}

export function listPlans(db: Db, pieceId: string, { limit, cursor }: Page): PlanRow[] {
  return newestRows(db, plans, { limit, cursor }, { pieceId });
}

export function highestPlanNumber(db: Db, pieceId: string): number {
  return (
    db
      .select({ last: max(plans.number) })
      .from(plans)
      .where(eq(plans.pieceId, pieceId))
      .get()?.last ?? 0
  );
}

export function findPlanInUse(db: Db, pieceId: string): PlanRow | undefined {
  return findNewestPlan(db, pieceId, ['in_use']);
}

/** The newest plan of a piece, in one of these states if they are said. */
export function findNewestPlan(db: Db, pieceId: string, states?: string[]): PlanRow | undefined {
  return db
    .select()
    .from(plans)
    .where(and(eq(plans.pieceId, pieceId), states && inArray(plans.state, states)))
    .orderBy(desc(plans.number))
    .limit(1)
    .get();
}

export type PricedPlanRow = ReturnType<typeof findPricedPlans>[number];

/** The plan that each of these pieces is priced by: the one in use, else the newest that was checked, else the newest draft. */
export function findPricedPlans(db: Db, pieceIds: readonly string[]) {
  const first = sql`(SELECT id FROM plans AS its
    WHERE its.piece_id = ${plans.pieceId} AND its.state IN ('in_use', 'checked', 'signed', 'draft')
    ORDER BY CASE its.state WHEN 'in_use' THEN 0 WHEN 'draft' THEN 2 ELSE 1 END, its.number DESC LIMIT 1)`;
  const { id, pieceId, number, designId, body, solders, checkResult } = plans;
  return db
    .select({ id, pieceId, number, designId, body, solders, checkResult })
    .from(plans)
    .where(and(inArray(plans.pieceId, [...pieceIds]), eq(plans.id, first)))
    .all();
}

/** Older plans that a newer one in use takes the place of. */
export function plansBefore(db: Db, { pieceId, number }: PlanRow): PlanRow[] {
  return db
    .select()
    .from(plans)
    .where(
      and(eq(plans.pieceId, pieceId), lt(plans.number, number), inArray(plans.state, ['draft', 'checked', 'signed', 'in_use'])),
    )
    .all();
}

/** Who wrote the last line about a plan. */
export function lastHandOn(db: Db, planId: string): string | null {
  return (
    db
      .select({ name: people.name })
      .from(journal)
      .innerJoin(people, eq(people.id, journal.personId))
      .where(and(eq(journal.thingId, planId), eq(journal.what, 'plan')))
      .orderBy(desc(journal.seq))
      .limit(1)
      .get()?.name ?? null
  );
}

export function designNumberOf(db: Db, { designId }: PlanRow): number {
  return db.select({ number: designs.number }).from(designs).where(eq(designs.id, designId)).get()!.number;
}

export function insertPlan(db: Db, row: typeof plans.$inferInsert): PlanRow {
  return insertRow(db, plans, row);
}

export function updatePlan(db: Db, id: string, change: Partial<PlanRow>): PlanRow {
  return updateVersion(db, plans, id, change);
}

/** Solder kept for a piece, by product. */
export function heldFor(db: Db, pieceId: string): Map<string, number> {
  const rows = db
    .select({ productId: stockMovements.productId, tenthMg: sql<number>`sum(${stockMovements.heldTenthMg})` })
    .from(stockMovements)
    .where(eq(stockMovements.pieceId, pieceId))
    .groupBy(stockMovements.productId)
    .all();
  return new Map(rows.map(({ productId, tenthMg }) => [productId, tenthMg]));
}

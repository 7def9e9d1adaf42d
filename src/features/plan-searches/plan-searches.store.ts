import { and, desc, eq, inArray, isNull, isNotNull, lt, or } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById, updateVersion } from '../../platform/db/rows.ts';
import { planSearches } from '../../platform/db/tables.ts';
import { worksHere, type Actor } from '../../platform/http/actor.ts';
import type { Page } from '../../platform/http/paging.ts';
import { practicePieces } from '../pieces/index.ts';

export type PlanSearchRow = typeof planSearches.$inferSelect;

export function findPlanSearch(db: Db, id: string): PlanSearchRow | undefined {
  return rowById(db, planSearches, id);
}

/** Those of pieces that this person knows of, and of designs of no piece their own; the owner sees everybody's. */
export function listPlanSearches(
  db: Db,
  actor: Actor,
  { limit, cursor, pieceId, state }: Page & { pieceId?: string | undefined; state?: string | undefined },
): PlanSearchRow[] {
  const known = worksHere(actor) ? isNotNull(planSearches.pieceId) : inArray(planSearches.pieceId, practicePieces(db));
  const own = actor.roles.has('owner') ? undefined : eq(planSearches.personId, actor.personId);
  return db
    .select()
    .from(planSearches)
    .where(
      and(
        or(known, and(isNull(planSearches.pieceId), own)),
        pieceId === undefined ? undefined : eq(planSearches.pieceId, pieceId),
        state === undefined ? undefined : eq(planSearches.state, state),
        cursor === undefined ? undefined : lt(planSearches.id, cursor),
      ),
    )
    .orderBy(desc(planSearches.id))
    .limit(limit + 1)
    .all();
}

/** Those that have not come to their end. */
export function searchesUnderWay(db: Db): PlanSearchRow[] {
  return db.select().from(planSearches).where(isNull(planSearches.endedAt)).all();
}

export function insertPlanSearch(db: Db, row: typeof planSearches.$inferInsert): PlanSearchRow {
  return insertRow(db, planSearches, row);
}

export function updatePlanSearch(db: Db, id: string, change: Partial<PlanSearchRow>): PlanSearchRow {
  return updateVersion(db, planSearches, id, change);
}

export function dropEndedBefore(db: Db, at: string): void {
  db.delete(planSearches)
    .where(and(isNotNull(planSearches.endedAt), lt(planSearches.endedAt, at)))
    .run();
}

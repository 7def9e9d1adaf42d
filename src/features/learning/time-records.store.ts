import { and, asc, desc, eq, inArray, isNull, lt } from 'drizzle-orm';
import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import type { Db } from '../../platform/db/client.ts';
import { benchTimes, commissions, incidents, learnedFactors, pieces, quotes } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type FactorRow = typeof learnedFactors.$inferSelect;

/** Commissions whose pieces are all finished, each with the price it was made by. */
export function finishedWork(db: Db): { commissionId: string; number: string; labour: EstimateRequest['labour'] }[] {
  const rows = db
    .select({ id: commissions.id, number: commissions.number, request: quotes.request, state: pieces.state })
    .from(commissions)
    .innerJoin(quotes, and(eq(quotes.commissionId, commissions.id), eq(quotes.state, 'accepted')))
    .innerJoin(pieces, eq(pieces.commissionId, commissions.id))
    .orderBy(asc(commissions.number))
    .all();
  const open = new Set(rows.filter(({ state }) => !['ready', 'given', 'scrapped'].includes(state)).map(({ id }) => id));
  const done = new Map(
    rows
      .filter(({ id, state }) => !open.has(id) && state !== 'scrapped')
      .map(({ id, number, request }) => [id, { number, labour: request.labour }]),
  );
  return [...done].map(([commissionId, work]) => ({ commissionId, ...work }));
}

/** Agreed times on the pieces of a commission that were not scrapped, oldest first. */
export function agreedTimes(db: Db, commissionId: string) {
  return db
    .select({
      personId: benchTimes.personId,
      pieceId: benchTimes.pieceId,
      operation: benchTimes.operation,
      startedAt: benchTimes.startedAt,
      stoppedAt: benchTimes.stoppedAt,
      minutesByHand: benchTimes.minutesByHand,
      correctsId: benchTimes.correctsId,
    })
    .from(benchTimes)
    .innerJoin(pieces, eq(pieces.id, benchTimes.pieceId))
    .where(and(eq(pieces.commissionId, commissionId), inArray(benchTimes.state, ['agreed', 'locked'])))
    .orderBy(asc(benchTimes.startedAt))
    .all();
}

/** Minutes that incidents on the pieces of a commission took, with when they were seen. */
export function minutesLost(db: Db, commissionId: string) {
  return db
    .select({ pieceId: incidents.pieceId, seenAt: incidents.seenAt, minutes: incidents.minutesLost })
    .from(incidents)
    .innerJoin(pieces, eq(pieces.id, incidents.pieceId))
    .where(eq(pieces.commissionId, commissionId))
    .all();
}

export function insertFactor(db: Db, row: typeof learnedFactors.$inferInsert): FactorRow {
  return db.insert(learnedFactors).values(row).returning().get();
}

/** The factor that was accepted last for an operation, of everybody's records. */
export function factorNow(db: Db, operation: string): FactorRow | undefined {
  return db
    .select()
    .from(learnedFactors)
    .where(and(eq(learnedFactors.operation, operation), isNull(learnedFactors.personId)))
    .orderBy(desc(learnedFactors.id))
    .limit(1)
    .get();
}

/** Every factor that was ever accepted, newest first. */
export function listFactors(db: Db, { limit, cursor, operation }: Page & { operation?: string | undefined }): FactorRow[] {
  return db
    .select()
    .from(learnedFactors)
    .where(
      and(
        cursor === undefined ? undefined : lt(learnedFactors.id, cursor),
        operation === undefined ? undefined : eq(learnedFactors.operation, operation),
      ),
    )
    .orderBy(desc(learnedFactors.id))
    .limit(limit + 1)
    .all();
}

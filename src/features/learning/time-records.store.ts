import { and, asc, desc, eq, exists, gte, inArray, isNull, lt, ne, notExists, notInArray, sql, type SQL } from 'drizzle-orm';
import type { EstimateRequest } from '../../../shared/costing/estimate-request.ts';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows } from '../../platform/db/rows.ts';
import { isAmong } from '../../platform/db/is-among.ts';
import { benchTimes, commissions, incidents, learnedFactors, pieces, quotes } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type FactorRow = typeof learnedFactors.$inferSelect;

const FINISHED = ['ready', 'given', 'scrapped'];

/** From one moment on, before another. */
export interface Span {
  since: string | null;
  before: string | null;
}

/**
 * Commissions whose pieces are all finished, each with what it was guessed at by the price it was made by.
 *
 * @param span only those on whose pieces some time at the bench began then
 */
export function finishedWork(
  db: Db,
  { since, before }: Span,
): { commissionId: string; number: string; labour: EstimateRequest['labour'] }[] {
  const itsPieces = (are: SQL) =>
    db
      .select({ id: pieces.id })
      .from(pieces)
      .where(and(eq(pieces.commissionId, commissions.id), are));
  return db
    .select({
      commissionId: commissions.id,
      number: commissions.number,
      labour: sql<string>`json_extract(${quotes.request}, '$.labour')`,
    })
    .from(commissions)
    .innerJoin(quotes, and(eq(quotes.commissionId, commissions.id), eq(quotes.state, 'accepted')))
    .where(
      and(
        exists(itsPieces(ne(pieces.state, 'scrapped'))),
        notExists(itsPieces(notInArray(pieces.state, FINISHED))),
        since === null && before === null ? undefined : inArray(commissions.id, workedOn(db, { since, before })),
      ),
    )
    .orderBy(asc(commissions.number))
    .all()
    .map(({ labour, ...work }) => ({ ...work, labour: JSON.parse(labour) as EstimateRequest['labour'] }));
}

function workedOn(db: Db, { since, before }: Span) {
  return db
    .select({ id: pieces.commissionId })
    .from(benchTimes)
    .innerJoin(pieces, eq(pieces.id, benchTimes.pieceId))
    .where(
      and(
        since === null ? undefined : gte(benchTimes.startedAt, since),
        before === null ? undefined : lt(benchTimes.startedAt, before),
      ),
    );
}

/** Agreed times on the pieces of some commissions, oldest first. */
export function agreedTimes(db: Db, commissionIds: readonly string[]) {
  return db
    .select({
      commissionId: pieces.commissionId,
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
    .where(and(isAmong(pieces.commissionId, commissionIds), inArray(benchTimes.state, ['agreed', 'locked'])))
    .orderBy(asc(benchTimes.startedAt))
    .all();
}

/** Minutes that incidents on the pieces of some commissions took, with when they were seen. */
export function minutesLost(db: Db, commissionIds: readonly string[]) {
  return db
    .select({
      commissionId: pieces.commissionId,
      pieceId: incidents.pieceId,
      seenAt: incidents.seenAt,
      minutes: incidents.minutesLost,
    })
    .from(incidents)
    .innerJoin(pieces, eq(pieces.id, incidents.pieceId))
    .where(isAmong(pieces.commissionId, commissionIds))
    .orderBy(asc(incidents.id))
    .all();
}

export function insertFactor(db: Db, row: typeof learnedFactors.$inferInsert): FactorRow {
  return insertRow(db, learnedFactors, row);
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
  return newestRows(db, learnedFactors, { limit, cursor }, { operation });
}

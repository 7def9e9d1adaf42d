import { and, eq, gt, gte, inArray, isNotNull, isNull, lt, max, min, ne, notInArray, or } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import { benchTimes, commissions, heats, journal, people, pieces } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type BenchTimeRow = typeof benchTimes.$inferSelect;

export interface BenchTimeFilter {
  personId?: string | undefined;
  pieceId?: string | undefined;
  state?: string | undefined;
}

export function findBenchTime(db: Db, id: string): BenchTimeRow | undefined {
  return rowById(db, benchTimes, id);
}

export function listBenchTimes(db: Db, { limit, cursor, personId, pieceId, state }: Page & BenchTimeFilter): BenchTimeRow[] {
  return newestRows(db, benchTimes, { limit, cursor }, { personId, pieceId, state });
}

export function findRunning(db: Db, personId: string): BenchTimeRow | undefined {
  return db
    .select()
    .from(benchTimes)
    .where(and(eq(benchTimes.personId, personId), eq(benchTimes.state, 'running')))
    .get();
}

export function allRunning(db: Db): BenchTimeRow[] {
  return db.select().from(benchTimes).where(eq(benchTimes.state, 'running')).all();
}

/** When the first time of the book began. */
export function firstStart(db: Db): string | null {
  return (
    db
      .select({ at: min(benchTimes.startedAt) })
      .from(benchTimes)
      .get()?.at ?? null
  );
}

/** Agreed times that began in [from, until). */
export function agreedBetween(db: Db, { from, until }: { from: string; until: string }): BenchTimeRow[] {
  return db
    .select()
    .from(benchTimes)
    .where(and(eq(benchTimes.state, 'agreed'), gte(benchTimes.startedAt, from), lt(benchTimes.startedAt, until)))
    .all();
}

/** What was corrected of a time since its month was closed, oldest first. */
export function correctionsOf(db: Db, id: string): BenchTimeRow[] {
  return db.select().from(benchTimes).where(eq(benchTimes.correctsId, id)).orderBy(benchTimes.id).all();
}

/** One person's times that ended and share time with [from, until), or were noted in it by hand; none in doubt. */
export function endedBetween(
  db: Db,
  { personId, from, until }: { personId: string; from: string; until: string },
): BenchTimeRow[] {
  return db
    .select()
    .from(benchTimes)
    .where(
      and(
        eq(benchTimes.personId, personId),
        notInArray(benchTimes.state, ['running', 'in_doubt']),
        lt(benchTimes.startedAt, until),
        or(gt(benchTimes.stoppedAt, from), and(isNull(benchTimes.stoppedAt), gte(benchTimes.startedAt, from))),
      ),
    )
    .orderBy(benchTimes.startedAt)
    .all();
}

/** When the first span of a person after a moment began; null where there is none. */
export function nextStart(db: Db, personId: string, after: string): string | null {
  const later = and(eq(benchTimes.personId, personId), isNull(benchTimes.minutesByHand), gt(benchTimes.startedAt, after));
  return (
    db
      .select({ at: min(benchTimes.startedAt) })
      .from(benchTimes)
      .where(later)
      .get()?.at ?? null
  );
}

export function inDoubtOf(db: Db, personId: string): BenchTimeRow[] {
  return db
    .select()
    .from(benchTimes)
    .where(and(eq(benchTimes.personId, personId), eq(benchTimes.state, 'in_doubt')))
    .orderBy(benchTimes.startedAt)
    .all();
}

/**
 * One person's spans that share time with [startedAt, stoppedAt). A running timer goes on for ever; a time in doubt has no
 * end yet, and a sum of minutes no place, so neither overlaps anything.
 */
export function overlapping(
  db: Db,
  {
    personId,
    startedAt,
    stoppedAt,
    except,
  }: { personId: string; startedAt: string; stoppedAt: string | null; except?: string | undefined },
): BenchTimeRow[] {
  return db
    .select()
    .from(benchTimes)
    .where(
      and(
        eq(benchTimes.personId, personId),
        except === undefined ? undefined : ne(benchTimes.id, except),
        isNull(benchTimes.minutesByHand),
        stoppedAt === null ? undefined : lt(benchTimes.startedAt, stoppedAt),
        or(eq(benchTimes.state, 'running'), and(isNotNull(benchTimes.stoppedAt), gt(benchTimes.stoppedAt, startedAt))),
      ),
    )
    .orderBy(benchTimes.startedAt)
    .all();
}

export function insertBenchTime(db: Db, row: typeof benchTimes.$inferInsert): BenchTimeRow {
  return insertRow(db, benchTimes, row);
}

export function updateBenchTime(db: Db, id: string, change: Partial<BenchTimeRow>): BenchTimeRow {
  return updateRow(db, benchTimes, id, change);
}

export interface Names {
  people: Map<string, string>;
  pieces: Map<string, string>;
}

/** What people and pieces of some times are called. */
export function namesFor(db: Db, rows: readonly BenchTimeRow[]): Names {
  const personIds = rows.map(({ personId }) => personId);
  const pieceIds = rows.flatMap(({ pieceId }) => (pieceId === null ? [] : [pieceId]));
  const named = db.select({ id: people.id, name: people.name }).from(people).where(inArray(people.id, personIds)).all();
  const numbered = db.select({ id: pieces.id, number: pieces.number }).from(pieces).where(inArray(pieces.id, pieceIds)).all();
  return {
    people: new Map(named.map(({ id, name }) => [id, name])),
    pieces: new Map(numbered.map(({ id, number }) => [id, number])),
  };
}

export function findTargetPiece(db: Db, id: string): { kind: string; state: string } | undefined {
  return db
    .select({ kind: commissions.kind, state: pieces.state })
    .from(pieces)
    .innerJoin(commissions, eq(commissions.id, pieces.commissionId))
    .where(eq(pieces.id, id))
    .get();
}

export function findPieceOfHeat(db: Db, heatId: string): string | undefined {
  return db.select({ pieceId: heats.pieceId }).from(heats).where(eq(heats.id, heatId)).get()?.pieceId;
}

export function findRate(db: Db, personId: string): string | null {
  return db.select({ rate: people.ratePerHour }).from(people).where(eq(people.id, personId)).get()?.rate ?? null;
}

/** When a person last wrote anything after a moment, except about times. */
export function lastWrite(db: Db, personId: string, after: string): string | null {
  return (
    db
      .select({ at: max(journal.at) })
      .from(journal)
      .where(and(eq(journal.personId, personId), gt(journal.at, after), ne(journal.what, 'bench_time')))
      .get()?.at ?? null
  );
}

import { and, asc, eq, gt, gte, lt, lte, max, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { benchSteps, journal } from '../../platform/db/tables.ts';

export type StepRow = typeof benchSteps.$inferSelect;

export function findStep(db: Db, personId: string, key: string): StepRow | undefined {
  return db
    .select()
    .from(benchSteps)
    .where(and(eq(benchSteps.personId, personId), eq(benchSteps.key, key)))
    .get();
}

/** Keeps a step with its answer, in place of an earlier answer to it. */
export function putStep(db: Db, row: typeof benchSteps.$inferInsert): void {
  const { personId: _personId, key: _key, ...set } = row;
  db.insert(benchSteps)
    .values(row)
    .onConflictDoUpdate({ target: [benchSteps.personId, benchSteps.key], set })
    .run();
}

/** Whether a step that its device counts before this one was done after this one had been refused. */
export function doneSince(db: Db, { personId, deviceId, deviceSeq, lastLine: last }: StepRow): boolean {
  const earlier = and(
    eq(benchSteps.personId, personId),
    eq(benchSteps.deviceId, deviceId),
    lt(benchSteps.deviceSeq, deviceSeq),
    gt(benchSteps.firstLine, last),
    sql`json_extract(${benchSteps.answer}, '$.status') = 200`,
  );
  return db.select({ key: benchSteps.key }).from(benchSteps).where(earlier).limit(1).get() !== undefined;
}

export function markUndone(db: Db, { personId, key }: StepRow, undoneBy: string): void {
  db.update(benchSteps)
    .set({ undoneBy })
    .where(and(eq(benchSteps.personId, personId), eq(benchSteps.key, key)))
    .run();
}

/** Where the journal ends now. */
export function lastLine(db: Db): number {
  return (
    db
      .select({ seq: max(journal.seq) })
      .from(journal)
      .get()?.seq ?? 0
  );
}

/** The lines that a step left in the journal, oldest first. */
export function linesOf(db: Db, { firstLine, lastLine: last }: StepRow) {
  return db
    .select({ what: journal.what, before: journal.before, after: journal.after })
    .from(journal)
    .where(and(gte(journal.seq, firstLine), lte(journal.seq, last)))
    .orderBy(asc(journal.seq))
    .all();
}

import { and, asc, eq, gte, lte, max } from 'drizzle-orm';
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

export function insertStep(db: Db, row: typeof benchSteps.$inferInsert): void {
  db.insert(benchSteps).values(row).run();
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

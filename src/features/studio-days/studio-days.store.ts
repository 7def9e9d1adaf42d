import { and, eq, isNotNull } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateVersion } from '../../platform/db/rows.ts';
import { absences, benches, people } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';

export type BenchRow = typeof benches.$inferSelect;
export type AbsenceRow = typeof absences.$inferSelect;

export function findBench(db: Db, id: string): BenchRow | undefined {
  return rowById(db, benches, id);
}

export function findBenchBy(db: Db, column: 'name' | 'personId', value: string): BenchRow | undefined {
  return db.select().from(benches).where(eq(benches[column], value)).get();
}

/** The bench that somebody works at; undefined where they have none. */
export function findBenchOf(db: Db, personId: string): BenchRow | undefined {
  return db
    .select()
    .from(benches)
    .where(and(eq(benches.personId, personId), eq(benches.active, true)))
    .get();
}

export function findOpenBench(db: Db, id: string): BenchRow | undefined {
  return db
    .select()
    .from(benches)
    .where(and(eq(benches.id, id), eq(benches.active, true)))
    .get();
}

export function listBenches(db: Db, { limit, cursor }: Page): BenchRow[] {
  return newestRows(db, benches, { limit, cursor });
}

export function insertBench(db: Db, row: typeof benches.$inferInsert): BenchRow {
  return insertRow(db, benches, row);
}

export function updateBench(db: Db, id: string, change: Partial<BenchRow>): BenchRow {
  return updateVersion(db, benches, id, change);
}

export function findAbsence(db: Db, id: string): AbsenceRow | undefined {
  return rowById(db, absences, id);
}

export function listAbsences(db: Db, { limit, cursor, personId }: Page & { personId?: string | undefined }): AbsenceRow[] {
  return newestRows(db, absences, { limit, cursor }, { personId });
}

export function allAbsences(db: Db): AbsenceRow[] {
  return db.select().from(absences).orderBy(absences.firstOn).all();
}

export function insertAbsence(db: Db, row: typeof absences.$inferInsert): AbsenceRow {
  return insertRow(db, absences, row);
}

export function updateAbsence(db: Db, id: string, change: Partial<AbsenceRow>): AbsenceRow {
  return updateVersion(db, absences, id, change);
}

export function deleteAbsence(db: Db, id: string): void {
  db.delete(absences).where(eq(absences.id, id)).run();
}

export function findPerson(db: Db, id: string): { active: boolean } | undefined {
  return db.select({ active: people.active }).from(people).where(eq(people.id, id)).get();
}

/** Benches that are worked, each with the minutes of its person. */
export function workedBenches(db: Db) {
  return db
    .select({ personId: benches.personId, minutesPerDay: benches.minutesPerDay, ofPerson: people.benchMinutesPerDay })
    .from(benches)
    .innerJoin(people, eq(people.id, benches.personId))
    .where(and(eq(benches.active, true), eq(people.active, true)))
    .all();
}

export function anyBench(db: Db): boolean {
  return db.select({ id: benches.id }).from(benches).limit(1).get() !== undefined;
}

/** Minutes that those who work at the bench have there on a working day, by their own records. */
export function benchHands(db: Db): { personId: string; minutesPerDay: number }[] {
  return db
    .select({ id: people.id, roles: people.roles, minutes: people.benchMinutesPerDay })
    .from(people)
    .where(and(eq(people.active, true), isNotNull(people.benchMinutesPerDay)))
    .all()
    .filter(({ roles }) => roles.includes('bench') || roles.includes('owner'))
    .map(({ id, minutes }) => ({ personId: id, minutesPerDay: minutes ?? 0 }));
}

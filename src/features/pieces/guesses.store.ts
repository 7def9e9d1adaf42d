import { and, asc, eq, gte, lt, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow } from '../../platform/db/rows.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { heats, jointGuesses, people, pieces, plans, tutorYes } from '../../platform/db/tables.ts';

export type GuessRow = typeof jointGuesses.$inferSelect;
export type TutorYesRow = typeof tutorYes.$inferSelect;

export function insertGuess(db: Db, row: GuessRow): GuessRow {
  return insertRow(db, jointGuesses, row);
}

/** What one person guessed of the heats of a plan, or everybody. */
export function guessesOfPlan(db: Db, planId: string, personId?: string) {
  return db
    .select({ guess: jointGuesses, name: people.name })
    .from(jointGuesses)
    .innerJoin(people, eq(people.id, jointGuesses.personId))
    .where(and(eq(jointGuesses.planId, planId), personId === undefined ? undefined : eq(jointGuesses.personId, personId)))
    .orderBy(asc(jointGuesses.id))
    .all();
}

/** Every guess of a span of time, from its begin to before its end, oldest first, with whose it is and of which piece. */
export function guessesBetween(db: Db, { from, before }: { from: string; before: string }) {
  return db
    .select({
      id: jointGuesses.id,
      personId: jointGuesses.personId,
      name: people.name,
      planId: jointGuesses.planId,
      pieceId: plans.pieceId,
      pieceNumber: pieces.number,
      heat: jointGuesses.heat,
      joint: jointGuesses.joint,
      guess: jointGuesses.guess,
      predicted: jointGuesses.predicted,
      at: jointGuesses.at,
    })
    .from(jointGuesses)
    .innerJoin(people, eq(people.id, jointGuesses.personId))
    .innerJoin(plans, eq(plans.id, jointGuesses.planId))
    .innerJoin(pieces, eq(pieces.id, plans.pieceId))
    .where(and(gte(jointGuesses.at, from), lt(jointGuesses.at, before)))
    .orderBy(asc(jointGuesses.id))
    .all();
}

/** The places in a plan of those heats that a flame has been on. */
export function heatsLit(db: Db, planId: string): Set<number> {
  const rows = db
    .select({ position: heats.position, alightAt: heats.alightAt })
    .from(heats)
    .where(eq(heats.planId, planId))
    .all();
  return new Set(rows.filter(({ alightAt }) => alightAt !== null).map(({ position }) => position));
}

export function findTutorYes(db: Db, heatId: string, studentId: string): TutorYesRow | undefined {
  return db
    .select()
    .from(tutorYes)
    .where(and(eq(tutorYes.heatId, heatId), eq(tutorYes.studentId, studentId)))
    .get();
}

export function tutorYesOf(db: Db, heatId: string): TutorYesRow[] {
  return yesOfHeat(db).all({ heatId });
}

const yesOfHeat = prepared((db) =>
  db
    .select()
    .from(tutorYes)
    .where(eq(tutorYes.heatId, sql.placeholder('heatId')))
    .orderBy(asc(tutorYes.at))
    .prepare(),
);

export function insertTutorYes(db: Db, row: TutorYesRow): TutorYesRow {
  return insertRow(db, tutorYes, row);
}

export function deleteTutorYes(db: Db, { heatId, studentId }: TutorYesRow): void {
  db.delete(tutorYes)
    .where(and(eq(tutorYes.heatId, heatId), eq(tutorYes.studentId, studentId)))
    .run();
}

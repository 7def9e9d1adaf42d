import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { effectiveRoles, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { isLearner, leftToGuess } from './guess-first.ts';
import type { TutorsYes } from './guesses.schema.ts';
import * as store from './guesses.store.ts';
import type { HeatContext } from './heat-context.ts';
import { findPerson } from './pieces.store.ts';

/** A device may be so far off without being asked about it. */
const CLOCK_OFF_MS = 2 * 60_000;

/** A tutor says yes to one heat for one student, or takes it back: who lights it is never who says yes. */
export function sayTutorsYes(
  tx: Db,
  { actor, by, heat }: { actor: Actor; by: WrittenBy; heat: HeatContext },
  { studentId, yes }: z.infer<typeof TutorsYes>,
): void {
  if (!actor.tutor) throw new Problem('forbidden', 'Cannot say yes to this heat: that is for a tutor');
  const { row, plan } = heat;
  const student = findPerson(tx, studentId);
  const isStudent = student?.active && isLearner({ roles: effectiveRoles(student.roles) });
  if (!isStudent) throw invalidFields([{ pointer: '/studentId', detail: 'There is no student with this id.', given: studentId }]);
  const before = store.findTutorYes(tx, row.id, studentId);
  if (yes === (before !== undefined)) return;
  if (before) store.deleteTutorYes(tx, before);
  else holdToMissing(heat, [...notReady(heat), ...notGuessed(leftToGuess(tx, plan, studentId).get(row.position), student.name)]);
  const after = before
    ? undefined
    : store.insertTutorYes(tx, { heatId: row.id, studentId, tutorId: actor.personId, at: by.at.toISOString() });
  writeJournal(tx, by, { what: 'tutors_yes', id: row.id, ...(before && { before }), ...(after && { after }) });
}

/** What a person still needs before they may light a heat: a student a guess of their own and a tutor's yes, given before it. */
export function yesMissing(db: Db, actor: Actor, { row, plan }: HeatContext, litAt: Date): string[] {
  if (!isLearner(actor)) return [];
  const yes = store.findTutorYes(db, row.id, actor.personId);
  const inTime = yes !== undefined && Date.parse(yes.at) <= litAt.getTime() + CLOCK_OFF_MS;
  return [
    ...notGuessed(leftToGuess(db, plan, actor.personId).get(row.position)),
    ...(inTime
      ? []
      : [yes ? 'the tutor’s yes to this heat came only after it' : 'a student lights no heat without a tutor’s yes to it']),
  ];
}

function notReady({ row, plan }: HeatContext): string[] {
  if (plan.state !== 'in_use') return [`plan ${plan.number} is not in use`];
  return row.state === 'laid_out' || row.state === 'primed' ? [] : [`it is ${row.state.replaceAll('_', ' ')}`];
}

function notGuessed(left: readonly string[] = [], name?: string): string[] {
  if (left.length === 0) return [];
  const joints = left.join(', ');
  return name === undefined
    ? [`guess first what becomes of ${joints} (POST /plans/{id}/guesses)`]
    : [`${name} has to guess first what becomes of ${joints} (POST /plans/{id}/guesses)`];
}

function holdToMissing({ piece, row }: HeatContext, missing: readonly string[]): void {
  if (missing.length === 0) return;
  throw new Problem('condition-not-met', `Cannot say yes to ${piece.number} H${row.number}: ${missing.join('; ')}`, { missing });
}

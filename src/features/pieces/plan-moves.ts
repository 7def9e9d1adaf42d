import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { writeJournal } from '../../platform/journal.ts';
import { skipHeatsLeft, UNDER_WAY } from './heat-state.ts';
import { heatsOf } from './heats.store.ts';
import { holdForPlan } from './hold-for-plan.ts';
import { jointsOf } from './joints.store.ts';
import { layOutHeats } from './lay-out-heats.ts';
import { holdToMissing } from './move-fields.ts';
import { getPiece } from './piece-reads.ts';
import { writePiece } from './piece-state.ts';
import { isByStudent, isCurrent } from './plan-reply.ts';
import type { PlanMove } from './plans.schema.ts';
import * as store from './plans.store.ts';
import { isMade } from './true-state.ts';

interface PlanMoveAsked {
  actor: Actor;
  row: store.PlanRow;
  sent: z.infer<typeof PlanMove>;
}

/** Where a piece may be when its heats are laid out. */
const BEFORE_BUILT = new Set(['drawn', 'cut', 'soldering', 'hurt']);

/** Moves a plan version, if its life cycle, the person's roles and the guard of the move allow it, with all that follows. */
export function movePlan(tx: Db, { actor, row: before, sent }: PlanMoveAsked, now: Date): store.PlanRow {
  const { guard = '' } = holdToLifecycle('plan_version', actor, { state: before.state, sent, now });
  holdToMissing(`plan ${before.number}`, sent.to, missingFor(tx, guard, before));
  const by = writtenBy(actor, now, sent.deviceId);
  if (sent.to === 'in_use') makeRoom(tx, by, before);
  const signed = sent.to === 'signed' ? { signedBy: actor.personId } : {};
  const after = write(tx, by, before, { state: sent.to, ...signed });
  if (sent.to === 'in_use') {
    layOut(tx, by, after);
    holdForPlan(tx, by, before.pieceId);
  }
  return after;
}

function missingFor(tx: Db, guard: string, row: store.PlanRow): string[] {
  switch (guard) {
    case 'covers-open-joints-check-read':
      return [...notCovered(tx, row), ...(row.checkResult ? [] : ['have it checked']), ...stale(tx, row)];
    case 'plan-by-student':
      return isByStudent(tx, row) ? [] : ['only a plan by a student is signed'];
    case 'student-plan-signed':
      return [
        ...(isByStudent(tx, row) && row.signedBy === null ? ['a student made it: a tutor signs it first'] : []),
        ...stale(tx, row),
        ...pieceNotReady(tx, row),
      ];
    default:
      return [];
  }
}

function notCovered(tx: Db, { pieceId, body }: store.PlanRow): string[] {
  const covered = new Set(body.heats.flatMap(({ joints, purpose }) => (purpose === 'anneal' ? [] : joints)));
  return jointsOf(tx, pieceId)
    .filter((joint) => !isMade(joint) && !covered.has(joint.jointId))
    .map(({ jointId, state }) => `joint ${jointId} is ${state} and in no heat`);
}

function stale(tx: Db, row: store.PlanRow): string[] {
  return isCurrent(tx, row) ? [] : ['the design or what is made of the piece has changed since: plan again from its true state'];
}

function pieceNotReady(tx: Db, { pieceId }: store.PlanRow): string[] {
  const { number, state } = getPiece(tx, pieceId);
  const underWay = heatsOf(tx, pieceId, UNDER_WAY);
  return [
    ...(BEFORE_BUILT.has(state) ? [] : [`piece ${number} is ${state.replaceAll('_', ' ')}`]),
    ...underWay.map((heat) => `H${heat.number} is ${heat.state.replaceAll('_', ' ')}: bring it to its end first`),
  ];
}

/** The versions before it are replaced, and what is left of their heats is skipped. */
function makeRoom(tx: Db, by: WrittenBy, row: store.PlanRow): void {
  skipHeatsLeft(tx, by, row.pieceId);
  for (const older of store.plansBefore(tx, row)) write(tx, by, older, { state: 'replaced' });
}

function layOut(tx: Db, by: WrittenBy, row: store.PlanRow): void {
  layOutHeats(tx, by, row);
  const piece = getPiece(tx, row.pieceId);
  if (piece.state === 'hurt') writePiece(tx, by, piece, { state: 'soldering', stateReason: `plan ${row.number}` });
}

function write(tx: Db, by: WrittenBy, before: store.PlanRow, change: Partial<store.PlanRow>): store.PlanRow {
  const after = store.updatePlan(tx, before.id, change);
  writeJournal(tx, by, { what: 'plan', id: before.id, before, after });
  return after;
}

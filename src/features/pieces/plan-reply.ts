import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { effectiveRoles, type Actor } from '../../platform/http/actor.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { checkShown, isLearner, leftToGuess } from './guess-first.ts';
import { jointsOf } from './joints.store.ts';
import * as pieces from './pieces.store.ts';
import type { PlanReply } from './plans.schema.ts';
import { shortForPlan } from './short-for-plan.ts';
import { designNumberOf, type PlanRow } from './plans.store.ts';
import { sameMadeJoints, trueState } from './true-state.ts';

export function showPlan(db: Db, actor: Actor, row: PlanRow): z.infer<typeof PlanReply> {
  const { designId: _designId, body, checkResult, searchResult, ...plan } = row;
  const left = isLearner(actor) ? leftToGuess(db, row, actor.personId) : new Map<number, string[]>();
  // The stored JSON was written by the schemas and the engine; its readonly lists are the reply's lists.
  return {
    ...plan,
    plan: body,
    check: checkResult && checkShown(checkResult, left),
    // Why it was found says what every joint does.
    search: left.size === 0 ? searchResult : null,
    designNumber: designNumberOf(db, row),
    isCurrent: isCurrent(db, row),
    byStudent: isByStudent(db, row),
    short: shortForPlan(db, row),
    allowedMoves: allowedMoves('plan_version', actor, { state: row.state }),
  } as unknown as z.infer<typeof PlanReply>;
}

/** Whether the design and the joints that exist are still those a plan was made for; one in use makes joints itself. */
export function isCurrent(db: Db, { pieceId, designId, madeJoints, solders, state }: PlanRow): boolean {
  const design = pieces.findCurrentDesign(db, pieceId);
  if (design?.id !== designId || state === 'replaced') return false;
  return state === 'in_use' || sameMadeJoints(trueState(design.body, jointsOf(db, pieceId), solders).made, madeJoints);
}

/** Made by somebody who is a student and no more. */
export function isByStudent(db: Db, { madeBy }: PlanRow): boolean {
  return !effectiveRoles(pieces.findPerson(db, madeBy)!.roles).has('bench');
}

import { z } from 'zod';
import { findMove, moves, type Move, type Mover, type Thing } from '../../../shared/lifecycles/lifecycles.ts';
import type { Actor } from './actor.ts';
import { Moment } from './moment.ts';
import { aheadErrors } from './not-yet.ts';
import { invalidFields, Problem } from './problem.ts';
import { anyOf } from './text.ts';

/** What every move carries: it may have been made on a device without a network, and arrive late and twice. */
export const moveFields = {
  to: z.string().max(40).describe('The state it goes to: one of its allowedMoves.'),
  from: z.string().max(40).describe('The state the sender saw.'),
  occurredAt: Moment.describe('When it happened, UTC: the time that counts for the record, also when it is sent later.'),
  deviceId: z.string().min(1).max(64).describe('The device it was done on, by a name of its own choice, such as "bench-tablet".'),
  deviceSeq: z.number().int().min(0).describe('Counts up on that device, so that its order is known.'),
  reason: z.string().trim().min(3).max(200).optional().describe('Why, where the move asks for a reason; 409 says so.'),
};

export interface MoveSent {
  to: string;
  from: string;
  occurredAt: string;
}

/**
 * The move asked for, if the life cycle and the person's roles allow it. What it takes besides (its guard) is the caller's.
 *
 * @param own whether the record is this person's own, for the moves that only its person may make
 */
export function holdToLifecycle(
  thing: Thing,
  actor: Actor,
  { state, sent, own = true, now }: { state: string; sent: MoveSent; own?: boolean; now: Date },
): Move {
  const allowed = allowedMoves(thing, actor, { state, own });
  if (sent.from !== state) {
    throw new Problem('moved-on', `Cannot move the ${words(thing)} from ${sent.from}: it is ${state} now`, { state, allowed });
  }
  const move = findMove(thing, state, sent.to);
  if (!move) {
    const others = moves(thing, state).map(({ to }) => to);
    throw new Problem(
      'move-not-allowed',
      `Cannot move the ${words(thing)} from ${state} to ${sent.to}: from here it goes to ${others.length === 0 ? 'nowhere' : anyOf(others)}`,
      {
        state,
        allowed,
      },
    );
  }
  if (!mayMake(move, actor, own)) {
    throw new Problem('forbidden', `Cannot move the ${words(thing)} to ${sent.to}: that is for ${anyOf(move.who)}`, {
      allowed,
    });
  }
  const ahead = aheadErrors('/occurredAt', sent.occurredAt, now);
  if (ahead.length > 0) throw invalidFields(ahead);
  return move;
}

/** The states this person may move a thing to from where it is. */
export function allowedMoves(thing: Thing, actor: Actor, { state, own = true }: { state: string; own?: boolean }): string[] {
  return moves(thing, state)
    .filter((move) => mayMake(move, actor, own))
    .map(({ to }) => to);
}

function mayMake(move: Move, actor: Actor, own: boolean): boolean {
  return move.who.some((who: Mover) => {
    if (who === 'anyone') return true;
    if (who === 'person') return own;
    if (who === 'tutor') return actor.tutor;
    return who !== 'clock' && who !== 'system' && who !== 'client' && actor.roles.has(who);
  });
}

function words(thing: Thing): string {
  return thing.replaceAll('_', ' ');
}

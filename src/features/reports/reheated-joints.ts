import { groupBy } from '../../../shared/group-by.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { endedHeats, movedJoints, reflowIncidents, type EndedHeat } from './bench-reports.store.ts';
import type { Moments } from './report-numbers.ts';

/** A joint that was made before and lay in the fire of a heat, with what was predicted of it and what came of it. */
export interface ReheatedJoint {
  heatId: string;
  jointId: string;
  /** On which its heat ended. */
  day: string;
  solidMarginK: number;
  runMarginK: number;
  /** With which it was predicted. */
  riseK: number;
  verdict: string;
  antiFlow: boolean;
  remelted: boolean;
}

/**
 * Every joint that a heat of then found made. One remelted where it moved, or where an incident says so; it did in the last heat before that
 * in which it lay.
 */
export function reheatedJoints(db: Db, timeZone: string, moments: Moments): ReheatedJoint[] {
  const heats = endedHeats(db, moments);
  const remelted = remeltsIn(db, heats);
  return heats.flatMap((heat) =>
    heat.earlierJoints.flatMap(({ joint, solidMarginK, runMarginK, verdict }): ReheatedJoint[] => {
      const isRemelted = remelted.has(keyOf(heat.id, joint));
      // What did not flow was not so hot as predicted: it tells nothing, unless a joint ran all the same.
      if (heat.outcome === 'no_flow' && !isRemelted) return [];
      return [
        {
          heatId: heat.id,
          jointId: joint,
          day: dateInZone(new Date(heat.endedAt), timeZone),
          solidMarginK,
          runMarginK,
          riseK: heat.riseK,
          verdict,
          antiFlow: heat.antiFlowOn.includes(joint),
          remelted: isRemelted,
        },
      ];
    }),
  );
}

function remeltsIn(db: Db, heats: readonly EndedHeat[]): Set<string> {
  const byPiece = groupBy(heats, ({ pieceId }) => pieceId);
  const pieceIds = [...byPiece.keys()];
  const lastBefore = (pieceId: string, joint: string, isBefore: (heat: EndedHeat) => boolean) =>
    byPiece.get(pieceId)?.findLast((heat) => holds(heat, joint) && isBefore(heat));
  const moved = movedJoints(db, pieceIds).map(({ pieceId, jointId, seq }) => ({
    jointId,
    heat: lastBefore(pieceId, jointId, ({ litSeq }) => litSeq < seq),
  }));
  const seen = reflowIncidents(db, pieceIds).map(({ pieceId, heatId, jointId, seenAt }) => ({
    jointId,
    heat: lastBefore(pieceId, jointId, ({ id, alightAt }) => (heatId === null ? alightAt <= seenAt : id === heatId)),
  }));
  return new Set([...moved, ...seen].flatMap(({ jointId, heat }) => (heat ? [keyOf(heat.id, jointId)] : [])));
}

function holds({ earlierJoints }: EndedHeat, joint: string): boolean {
  return earlierJoints.some((earlier) => earlier.joint === joint);
}

function keyOf(heatId: string, jointId: string): string {
  return JSON.stringify([heatId, jointId]);
}

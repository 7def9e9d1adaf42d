import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import * as store from './bench-time.store.ts';
import { minutesBetween } from './spans.ts';

/** What corrects a locked time: of the same person, piece and work, dated today, agreed as it is written. */
export function correctionOf(
  tx: Db,
  by: WrittenBy,
  time: store.BenchTimeRow,
  { minutes, reason }: { minutes: number; reason: string },
): Parameters<typeof store.insertBenchTime>[1] {
  if (time.state !== 'locked' || time.correctsId !== null)
    throw new Problem(
      'condition-not-met',
      time.correctsId === null
        ? 'Cannot correct this time: its month is not closed, so change the time itself'
        : 'Cannot correct a correction: correct the time it belongs to',
    );
  const taken = minutesOf(time) + store.correctionsOf(tx, time.id).reduce((sum, row) => sum + minutesOf(row), 0);
  const tooFew = taken + minutes < 0;
  holdFields(tooFew ? [{ pointer: '/minutes', detail: `Only ${taken} min are left of this time.`, given: minutes }] : [], null);
  const at = by.at.toISOString();
  const { personId, pieceId, heatId, operation, ratePerHour, id } = time;
  return {
    id: newId(by.at),
    personId,
    pieceId,
    heatId,
    operation,
    ratePerHour,
    startedAt: at,
    minutesByHand: minutes,
    state: 'agreed',
    note: reason,
    createdAt: at,
    correctsId: id,
  };
}

function minutesOf({ minutesByHand, startedAt, stoppedAt }: store.BenchTimeRow): number {
  return minutesByHand ?? (stoppedAt === null ? 0 : minutesBetween(startedAt, stoppedAt));
}

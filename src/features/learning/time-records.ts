import { groupBy } from '../../../shared/group-by.ts';
import type { Db } from '../../platform/db/client.ts';
import * as store from './time-records.store.ts';

/** What an operation of one finished commission was guessed at, before any factor, and what it took. */
export interface OperationRecord {
  operation: string;
  commissionId: string;
  number: string;
  /** Whose hand did most of it. */
  personId: string;
  /** When it was done last. */
  at: string;
  estimateMinutes: number;
  actualMinutes: number;
  ratio: number;
}

type Time = ReturnType<typeof store.agreedTimes>[number];

/**
 * From agreed times of finished work, what incidents took put aside: it has a report of its own.
 *
 * @param span whatever was done last then is among them
 */
export function operationRecords(db: Db, span: store.Span = { since: null, before: null }): OperationRecord[] {
  const work = store.finishedWork(db, span);
  const ids = work.map(({ commissionId }) => commissionId);
  const worked = groupBy(store.agreedTimes(db, ids), ({ commissionId }) => commissionId);
  const lost = groupBy(store.minutesLost(db, ids), ({ commissionId }) => commissionId);
  return work.flatMap(({ commissionId, number, labour }) => {
    const times = withoutIncidents(worked.get(commissionId) ?? [], lost.get(commissionId) ?? []);
    const guessed = new Map<string, number>();
    for (const { operation, role, minutes } of labour)
      if (role !== 'desk') guessed.set(operation, (guessed.get(operation) ?? 0) + minutes);
    return [...guessed].flatMap(([operation, estimateMinutes]): OperationRecord[] => {
      const own = times.filter((time) => time.operation === operation);
      const actualMinutes = Math.round(own.reduce((sum, { minutes }) => sum + minutes, 0) * 100) / 100;
      if (estimateMinutes <= 0 || actualMinutes <= 0) return [];
      return [
        {
          operation,
          commissionId,
          number,
          personId: mostlyBy(own),
          // A correction is written later than the work.
          at: (own.findLast(({ correctsId }) => correctsId === null) ?? own.at(-1)!).startedAt,
          estimateMinutes,
          actualMinutes,
          ratio: actualMinutes / estimateMinutes,
        },
      ];
    });
  });
}

interface Worked extends Time {
  minutes: number;
}

function withoutIncidents(times: readonly Time[], lost: ReturnType<typeof store.minutesLost>): Worked[] {
  const worked = times.map((time) => ({ ...time, minutes: minutesOf(time) }));
  for (const { pieceId, seenAt, minutes } of lost) {
    // It happened in what was begun last before it was seen.
    const during = worked.findLast((time) => time.pieceId === pieceId && time.startedAt <= seenAt);
    if (during && minutes !== null) during.minutes = Math.max(0, during.minutes - minutes);
  }
  return worked;
}

function minutesOf({ minutesByHand, startedAt, stoppedAt }: Time): number {
  return minutesByHand ?? (stoppedAt === null ? 0 : (Date.parse(stoppedAt) - Date.parse(startedAt)) / 60_000);
}

function mostlyBy(times: readonly Worked[]): string {
  const of = new Map<string, number>();
  for (const { personId, minutes } of times) of.set(personId, (of.get(personId) ?? 0) + minutes);
  return [...of].toSorted(([, a], [, b]) => b - a)[0]![0];
}

import { timeInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './bench-time.store.ts';
import { forgottenFrom } from './forgotten.ts';
import { overlapOffers, type AskedTime, type Span } from './overlap-offers.ts';

/** Changes a time as the next version of its row, with its line in the journal. */
export function writeChange(
  tx: Db,
  by: WrittenBy,
  before: store.BenchTimeRow,
  change: Partial<store.BenchTimeRow>,
): store.BenchTimeRow {
  const after = store.updateBenchTime(tx, before.id, { ...change, version: before.version + 1 });
  writeJournal(tx, by, { what: 'bench_time', id: before.id, before, after });
  return after;
}

/** Whether a timer that ran so long was left on. */
export function wasForgotten(tx: Db, { startedAt, stoppedAt }: { startedAt: string; stoppedAt: string }): boolean {
  return new Date(stoppedAt) > forgottenFrom(startedAt, getSettings(tx));
}

/** Ends a running timer; one that was forgotten by then is asked about instead. Never cut in silence. */
export function endTimer(tx: Db, by: WrittenBy, row: store.BenchTimeRow, stoppedAt: string): store.BenchTimeRow {
  const forgotten = wasForgotten(tx, { startedAt: row.startedAt, stoppedAt });
  return writeChange(tx, by, row, forgotten ? { state: 'in_doubt' } : { state: 'stopped', stoppedAt });
}

interface Wanted {
  personId: string;
  span: Span;
  time: AskedTime;
}

/**
 * One person is in one place at a time. The refusal says every way to have both, ready to be sent.
 *
 * @param show how a record is shown in the problem, beside the span that was asked for
 */
export function refuseOverlap(
  tx: Db,
  by: WrittenBy,
  { personId, span, time }: Wanted,
  show: (rows: store.BenchTimeRow[]) => unknown[],
): void {
  const except = 'row' in time ? time.row.id : undefined;
  const rows = store.overlapping(tx, { ...span, personId, except });
  const first = rows[0];
  if (!first) return;
  const { timeZone } = getSettings(tx);
  const until = first.stoppedAt === null ? 'now' : timeInZone(new Date(first.stoppedAt), timeZone);
  throw new Problem(
    'times-overlap',
    `Cannot keep this time: it overlaps ${timeInZone(new Date(first.startedAt), timeZone)}–${until} on ${workOf(tx, first)}; keep which?`,
    {
      asked: span,
      overlaps: show(rows),
      offers: overlapOffers(by, { time, span }, first).map((offer) => ({ says: OFFERS[offer.offer], ...offer })),
    },
  );
}

const OFFERS = {
  cut_the_first: 'The first ends where the second begins.',
  cut_the_second: 'The second begins where the first ends.',
  split: 'Both stay: one goes on after the other, or each has half of what they share.',
} as const;

/** "C31-014.2", or what was done when it was on no piece. */
export function workOf(db: Db, row: store.BenchTimeRow): string {
  return row.pieceId === null ? row.operation : (store.namesFor(db, [row]).pieces.get(row.pieceId) ?? row.operation);
}

export function whenDidYouStop(db: Db, row: store.BenchTimeRow): string {
  const started = timeInZone(new Date(row.startedAt), getSettings(db).timeZone);
  return `You were on ${workOf(db, row)} from ${started}. When did you stop?`;
}

import { timeInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './bench-time.store.ts';
import { forgottenFrom } from './forgotten.ts';

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

/** Ends a running timer; one that was forgotten by then is asked about instead. Never cut in silence. */
export function endTimer(tx: Db, by: WrittenBy, row: store.BenchTimeRow, stoppedAt: string): store.BenchTimeRow {
  const forgotten = new Date(stoppedAt) > forgottenFrom(row.startedAt, getSettings(tx));
  return writeChange(tx, by, row, forgotten ? { state: 'in_doubt' } : { state: 'stopped', stoppedAt });
}

interface Span {
  personId: string;
  startedAt: string;
  stoppedAt: string | null;
  /** The record itself, when it is in the book already. */
  except: string;
}

/**
 * One person is in one place at a time.
 *
 * @param show how a record is shown in the problem, beside the span that was asked for
 */
export function refuseOverlap(tx: Db, span: Span, show: (rows: store.BenchTimeRow[]) => unknown[]): void {
  const rows = store.overlapping(tx, span);
  const first = rows[0];
  if (!first) return;
  const { timeZone } = getSettings(tx);
  const until = first.stoppedAt === null ? 'now' : timeInZone(new Date(first.stoppedAt), timeZone);
  throw new Problem(
    'times-overlap',
    `Cannot keep this time: it overlaps ${timeInZone(new Date(first.startedAt), timeZone)}–${until} on ${workOf(tx, first)}; keep which?`,
    {
      asked: { startedAt: span.startedAt, stoppedAt: span.stoppedAt },
      overlaps: show(rows),
      offers: ['cut_the_first', 'cut_the_second', 'split'],
    },
  );
}

/** "C31-014.2", or what was done when it was on no piece. */
export function workOf(db: Db, row: store.BenchTimeRow): string {
  return row.pieceId === null ? row.operation : (store.namesFor(db, [row]).pieces.get(row.pieceId) ?? row.operation);
}

export function whenDidYouStop(db: Db, row: store.BenchTimeRow): string {
  const started = timeInZone(new Date(row.startedAt), getSettings(db).timeZone);
  return `You were on ${workOf(db, row)} from ${started}. When did you stop?`;
}

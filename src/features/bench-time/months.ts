import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { startOfDay } from '../../platform/wall-time.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './bench-time.store.ts';
import * as locks from './month-locks.store.ts';
import { writeChange } from './time-records.ts';

/** The month, as 2031-05, that a moment belongs to in the studio. */
export function monthOf(at: Date, timeZone: string): string {
  return dateInZone(at, timeZone).slice(0, 7);
}

/** The month after one. */
export function monthAfter(month: string): string {
  return addDays(`${month}-28`, 4).slice(0, 7);
}

/** Closes a month: what is agreed in it is locked, and what is agreed later of it, too. */
export function closeMonth(tx: Db, by: WrittenBy, month: string): locks.MonthLockRow {
  const row = locks.insertLock(tx, { id: newId(by.at), month, personId: by.personId, createdAt: by.at.toISOString() });
  writeJournal(tx, by, { what: 'month-lock', id: row.id, after: row });
  lockAgreed(tx, by, month);
  return row;
}

/** Locks what is agreed in a closed month. */
export function lockAgreed(tx: Db, by: WrittenBy, month: string): void {
  const { timeZone } = getSettings(tx);
  const from = startOfDay(`${month}-01`, timeZone).toISOString();
  const until = startOfDay(`${monthAfter(month)}-01`, timeZone).toISOString();
  for (const row of store.agreedBetween(tx, { from, until })) writeChange(tx, by, row, { state: 'locked' });
}

/** @throws {Problem} condition-not-met for a moment of a closed month */
export function holdMonthOpen(db: Db, at: string): void {
  const month = monthOf(new Date(at), getSettings(db).timeZone);
  if (!locks.findLock(db, month)) return;
  throw new Problem(
    'condition-not-met',
    `Cannot note a time in ${month}: that month is closed. Correct a time of it (POST /bench-times/{id}/corrections), or note the minutes today`,
    { month },
  );
}

import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenByServer, type WrittenBy } from '../../platform/http/actor.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './bench-time.store.ts';
import { forgottenFrom } from './forgotten.ts';
import { allLocks } from './month-locks.store.ts';
import { closeMonth, lockAgreed, monthAfter, monthOf } from './months.ts';
import { writeChange } from './time-records.ts';

/**
 * Timers that were forgotten are in doubt until their person says when they stopped. A month is closed some days after its end, and
 * what is agreed in it is locked; after a rest of the server every month that is over.
 */
export function runDueBenchTimes({ db, clock }: Platform): void {
  db.transaction((tx) => {
    const by = writtenByServer(clock.now());
    const settings = getSettings(tx);
    for (const row of store.allRunning(tx))
      if (by.at > forgottenFrom(row.startedAt, settings)) writeChange(tx, by, row, { state: 'in_doubt' });
    closeMonthsThatAreOver(tx, by);
  });
}

function closeMonthsThatAreOver(tx: Db, by: WrittenBy): void {
  const { timeZone, monthLockDays } = getSettings(tx);
  const closed = new Set(allLocks(tx).map(({ month }) => month));
  const first = store.firstStart(tx);
  if (first === null) return;
  for (let month = monthOf(new Date(first), timeZone); isOver(month); month = monthAfter(month)) {
    if (closed.has(month)) lockAgreed(tx, by, month);
    else closeMonth(tx, by, month);
  }

  function isOver(month: string): boolean {
    return addDays(`${monthAfter(month)}-01`, monthLockDays) <= dateInZone(by.at, timeZone);
  }
}

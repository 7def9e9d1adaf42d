import type { Platform } from '../../platform/platform.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { Problem } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';
import { closeMonth, monthOf } from './months.ts';
import * as locks from './month-locks.store.ts';

export type MonthLockService = ReturnType<typeof createMonthLockService>;

export function createMonthLockService({ db, clock }: Platform) {
  return {
    /** Closes a month by hand, before the clock does. */
    add(actor: Actor, month: string): locks.MonthLockRow {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const isOver = month < monthOf(by.at, getSettings(tx).timeZone);
        holdFields(isOver ? [] : [{ pointer: '/month', detail: 'This month is not over yet.', given: month }], null);
        if (locks.findLock(tx, month)) throw new Problem('already-used', `Cannot close ${month}: it is closed already`);
        return closeMonth(tx, by, month);
      });
    },

    list: (page: Page) => pageOf(locks.listLocks(db, page), page, (row) => row),
  };
}

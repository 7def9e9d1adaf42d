import { dateInZone } from '../../platform/clock.ts';
import { writtenByServer } from '../../platform/http/actor.ts';
import type { Platform } from '../../platform/platform.ts';
import { getCommission } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import { writeMove } from './quote-moves.ts';
import * as store from './quotes.store.ts';

/** Versions nobody answered lapse once their last day is over in the studio, or their commission has gone quiet. */
export function runDueQuotes({ db, clock }: Platform): void {
  db.transaction((tx) => {
    const now = clock.now();
    const today = dateInZone(now, getSettings(tx).timeZone);
    for (const row of store.sentQuotes(tx)) {
      if (today > row.validUntil || getCommission(tx, row.commissionId).state === 'gone_quiet')
        writeMove(tx, writtenByServer(now), row, { state: 'lapsed', stateReason: null });
    }
  });
}

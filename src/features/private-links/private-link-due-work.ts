import { dateInZone } from '../../platform/clock.ts';
import { writtenByServer } from '../../platform/http/actor.ts';
import type { Platform } from '../../platform/platform.ts';
import { getCommission } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import { lastDay, writeLinkMove } from './link-life.ts';
import * as store from './private-links.store.ts';

/** Links end once their last day is over in the studio. */
export function runDuePrivateLinks({ db, clock }: Platform): void {
  db.transaction((tx) => {
    const now = clock.now();
    const today = dateInZone(now, getSettings(tx).timeZone);
    for (const link of store.openLinks(tx)) {
      const last = lastDay(tx, getCommission(tx, link.commissionId));
      if (last !== null && today > last) writeLinkMove(tx, writtenByServer(now), link, { state: 'ended', reason: null });
    }
  });
}

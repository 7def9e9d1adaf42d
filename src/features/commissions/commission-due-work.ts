import type { Db } from '../../platform/db/client.ts';
import { writtenByServer } from '../../platform/http/actor.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { accountOf } from './commission-account.ts';
import * as store from './commissions.store.ts';

const DAY_MS = 86_400_000;

/** What the clock does to commissions: offers nobody answered go quiet, what is handed over and paid is settled. */
export function runDueCommissions({ db, clock }: Platform): void {
  db.transaction((tx) => {
    const now = clock.now();
    const silentMs = getSettings(tx).silentDays * DAY_MS;
    for (const row of store.commissionsIn(tx, 'offered')) {
      if (now.getTime() - lastWord(tx, row) >= silentMs) move(tx, row, 'gone_quiet', now);
    }
    for (const row of store.commissionsIn(tx, 'handed_over')) {
      if (accountOf(tx, row.id).balanceMinor === 0) move(tx, row, 'settled', now);
    }
  });
}

/** Our last word to the client: the offer, or a version sent since. A client who accepted is not silent. */
function lastWord(tx: Db, row: store.CommissionRow): number {
  const quotes = store.quotesOf(tx, row.id);
  if (quotes.some(({ state }) => state === 'accepted')) return Infinity;
  return Math.max(Date.parse(row.stateSince), ...quotes.flatMap(({ sentAt }) => (sentAt === null ? [] : [Date.parse(sentAt)])));
}

function move(tx: Db, before: store.CommissionRow, state: string, now: Date): void {
  const after = store.updateCommission(tx, before.id, {
    state,
    stateReason: null,
    stateSince: now.toISOString(),
    version: before.version + 1,
  });
  writeJournal(tx, writtenByServer(now), { what: 'commission', id: before.id, before, after });
}

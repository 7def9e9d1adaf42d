import type { Db } from '../../platform/db/client.ts';
import type { CostedLedger } from '../../platform/db/tables.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './kept-costs.store.ts';
import { reckon } from './product-cost.ts';

/** So many lines are reckoned anew by whoever reads, before they are kept. */
const LINES_TO_KEEP = 1000;
/** A minute's share, so that a long ledger holds nobody up. */
const LINES_AT_A_TIME = 20_000;

/** Keeps what the lines of the ledgers cost, once there are many, so that nobody who reads has to begin with the first. */
export function runDueCosts({ db }: Platform, linesToKeep = LINES_TO_KEEP): void {
  for (const ledger of ['solder', 'metal'] as const) keepOn(db, ledger, linesToKeep);
}

function keepOn(db: Db, ledger: CostedLedger, linesToKeep: number): void {
  const { stockCost: method } = getSettings(db);
  const kept = store.costsKept(db, ledger, method);
  const lines = store.linesAfter(db, ledger, kept.lastLine, LINES_AT_A_TIME);
  if (lines.length < linesToKeep) return;
  db.transaction((tx) => {
    if (kept.lastLine === 0) store.dropLineCosts(tx, ledger);
    const { byProduct, lastLine } = reckon(lines, method, { ...kept, costOf: (id) => store.costKept(tx, ledger, id) });
    for (const { costs } of byProduct.values())
      for (const [movementId, cost] of costs) store.keepLineCost(tx, { ledger, movementId, cost });
    const states = Object.fromEntries([...byProduct].map(([id, { state }]) => [id, state]));
    store.keepCosts(tx, { ledger, method, states, lastLine });
  });
}

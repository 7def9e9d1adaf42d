import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import * as store from './supplies.store.ts';
import { sumsOf, withLine } from './supply-level.ts';

/** What a supply has come to, as it was kept with the last line of its ledger. */
export function sumsNow(db: Db, supplyId: string): store.SupplySums {
  return store.findSums(db, supplyId) ?? sumsOf(store.ledgerOf(db, supplyId));
}

/** Adds one line to the ledger of a supply, and to what it has come to. */
export function addSupplyLine(tx: Db, by: WrittenBy, line: store.NewSupplyMovement): store.SupplyMovementRow {
  const before = sumsNow(tx, line.supplyId);
  const row = store.addSupplyMovement(tx, by, line);
  // What was reversed never was: what came after it cost something else.
  const sums = row.kind === 'reverse' ? sumsOf(store.ledgerOf(tx, row.supplyId)) : withLine(before, row);
  store.keepSums(tx, row.supplyId, sums);
  return row;
}

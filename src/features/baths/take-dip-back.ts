import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { bathClocks, TIRING_FRACTION, type BathClocks } from './bath-clocks.ts';
import * as store from './baths.store.ts';

const OVER: ReadonlySet<string> = new Set(['neutralised', 'gone']);

/**
 * Takes a dip back that was counted in the wrong bath, or never was. The bath's clocks go on without it, and what the count of dips had
 * made of the bath it makes of it anew; what somebody said of it stays.
 *
 * @throws {Problem} not-found, or condition-not-met
 */
export function takeDipBack(tx: Db, by: WrittenBy, dipId: string, reason: string): void {
  const dip = store.getDip(tx, dipId);
  const bath = store.getBath(tx, dip.bathId);
  if (dip.takenBack) throw new Problem('condition-not-met', 'Cannot take this dip back: it was taken back already');
  if (OVER.has(bath.state))
    throw new Problem(
      'condition-not-met',
      `Cannot take this dip back: bath ${bath.number} is ${bath.state}, and is counted no more`,
    );
  const at = by.at.toISOString();
  const row = store.insertDipReversal(tx, { id: newId(by.at), dipId, reason, at, personId: by.personId });
  writeJournal(tx, by, { what: 'dip-reversal', id: row.id, after: row });
  const state = stateWithout(bath, bathClocks(tx, bath));
  if (state === bath.state) return;
  const after = store.updateBath(tx, bath.id, { state, version: bath.version + 1 });
  writeJournal(tx, by, { what: 'pickle-bath', id: bath.id, before: bath, after });
}

function stateWithout({ state, stateReason }: store.BathRow, { dips, fraction }: BathClocks): string {
  const isCounted = state === 'in_use' || state === 'tiring' || (state === 'spent' && stateReason === null);
  if (!isCounted || fraction >= 1) return state;
  if (fraction >= TIRING_FRACTION) return 'tiring';
  return dips === 0 ? 'fresh' : 'in_use';
}

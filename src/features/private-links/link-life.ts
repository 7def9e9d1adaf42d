import { createHash, randomBytes } from 'node:crypto';
import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { CommissionRow } from '../commissions/index.ts';
import { enteredState } from '../documents/index.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './private-links.store.ts';

const DAYS_AFTER = 30;
/** 192 bits. */
const SECRET_BYTES = 24;

export function newSecret(): string {
  return randomBytes(SECRET_BYTES).toString('base64url');
}

export function hashOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}

/** The last day a link to a commission opens; null while the commission goes on. */
export function lastDay(db: Db, commission: CommissionRow): string | null {
  const { id, state, stateSince } = commission;
  const ended =
    state === 'handed_over' || state === 'settled'
      ? (enteredState(db, id, 'handed_over') ?? stateSince)
      : state === 'called_off' || state === 'turned_down'
        ? stateSince
        : null;
  return ended === null ? null : addDays(dateInZone(new Date(ended), getSettings(db).timeZone), DAYS_AFTER);
}

export function writeLinkMove(
  tx: Db,
  by: WrittenBy,
  before: store.LinkRow,
  { state, reason }: { state: string; reason: string | null },
): store.LinkRow {
  const after = store.updateLink(tx, before.id, { state, stateReason: reason, version: before.version + 1 });
  writeJournal(tx, by, { what: 'private-link', id: before.id, before: withoutSecret(before), after: withoutSecret(after) });
  return after;
}

export function withoutSecret({ tokenHash: _hash, ...rest }: store.LinkRow): Omit<store.LinkRow, 'tokenHash'> {
  return rest;
}

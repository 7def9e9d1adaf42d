import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import type { CommissionRow } from '../commissions/index.ts';
import { acceptQuote, sendQuote } from './quote-moves.ts';
import * as store from './quotes.store.ts';
import { changeSketch, writeSketch } from './sketches.ts';

/**
 * A repair that the client agrees to at the counter: its newest sketch, or one written now, is priced, sent and accepted in
 * the open transaction.
 */
export function acceptNow(
  tx: Db,
  by: WrittenBy,
  { commission, overrides, occurredAt }: { commission: CommissionRow; overrides: Record<string, unknown>; occurredAt: string },
): void {
  const [sketch] = store.quotesIn(tx, commission.id, 'sketch');
  const priced = sketch
    ? changeSketch(tx, by, sketch, { commission, overrides })
    : writeSketch(tx, by, commission, { overrides });
  const moved = { occurredAt, reason: 'accepted at the counter' };
  acceptQuote(tx, by, sendQuote(tx, by, priced, moved), moved);
}

import { findMove } from '../../../shared/lifecycles/lifecycles.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { acceptQuote, whyNotAccepted, writeMove, type NotAccepted } from './quote-moves.ts';
import * as store from './quotes.store.ts';

/** Why a client's answer does not count, as the client is told; what it says of prices stays with the studio. */
export type AnswerRefused = NotAccepted['reason'];

/** The client's yes or no to a version that was sent, by the moves of the desk. The same answer twice is one answer. */
export function answerByClient(
  tx: Db,
  by: WrittenBy,
  { quoteId, answer }: { quoteId: string; answer: 'accepted' | 'declined' },
): 'done' | AnswerRefused {
  const row = store.getQuote(tx, quoteId);
  if (row.state === answer) return 'done';
  if (!findMove('quote_version', row.state, answer)?.who.includes('client'))
    return row.state === 'lapsed' ? 'lapsed' : 'not_open';
  const occurredAt = by.at.toISOString();
  if (answer === 'declined') {
    writeMove(tx, by, row, { state: 'declined', stateReason: null, answeredAt: occurredAt });
    return 'done';
  }
  const reasons = new Set(whyNotAccepted(tx, row, by.at).map(({ reason }) => reason));
  const told = (['not_open', 'lapsed', 'price_moved'] as const).find((reason) => reasons.has(reason));
  if (told !== undefined) return told;
  acceptQuote(tx, by, row, { occurredAt, reason: null });
  return 'done';
}

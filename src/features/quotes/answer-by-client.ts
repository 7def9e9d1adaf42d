import { findMove } from '../../../shared/lifecycles/lifecycles.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import { getCommission, isOver } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import { acceptQuote, writeMove } from './quote-moves.ts';
import * as store from './quotes.store.ts';

/** Why a client's answer does not count, as the client is told; what it says of prices stays with the studio. */
export type AnswerRefused = 'not_open' | 'lapsed' | 'price_moved';

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
  const commission = getCommission(tx, row.commissionId);
  if (dateInZone(by.at, getSettings(tx).timeZone) > row.validUntil) return 'lapsed';
  if (isOver(commission) || commission.state === 'gone_quiet' || store.quotesIn(tx, commission.id, 'accepted').length > 0)
    return 'not_open';
  try {
    acceptQuote(tx, by, row, { occurredAt, reason: null });
    return 'done';
  } catch (error) {
    if (error instanceof Problem && error.slug === 'condition-not-met') return 'price_moved';
    throw error;
  }
}

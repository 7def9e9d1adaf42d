import { notFound } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import { getPiece } from '../pieces/index.ts';
import * as store from './documents.store.ts';
import { careCard, collectionNotice, takeInReceipt } from './hand-over-papers.ts';
import { balanceReminder, bill, paymentReceipt } from './money-papers.ts';
import type { Paper } from './paper.ts';
import { quoteLetter } from './quote-letter.ts';

export type DocumentService = ReturnType<typeof createDocumentService>;

/** Papers for clients, in their language. They are written from the book when they are asked for; only a sent letter is kept. */
export function createDocumentService({ db, clock }: Platform) {
  return {
    'quote-letters'(quoteId: string): Paper {
      const quote = store.findQuote(db, quoteId);
      if (!quote) throw notFound('quote', quoteId);
      return quoteLetter(db, quote);
    },
    'payment-receipts'(paymentId: string): Paper {
      const payment = store.findPayment(db, paymentId);
      if (!payment) throw notFound('payment', paymentId);
      return paymentReceipt(db, payment);
    },
    bills: (commissionId: string): Paper => bill(db, commissionId, clock.now()),
    'balance-reminders': (commissionId: string): Paper => balanceReminder(db, commissionId, clock.now()),
    'collection-notices': (commissionId: string): Paper => collectionNotice(db, commissionId, clock.now()),
    'take-in-receipts': (commissionId: string): Paper => takeInReceipt(db, commissionId),
    'care-cards': (pieceId: string): Paper => careCard(db, getPiece(db, pieceId)),
  };
}

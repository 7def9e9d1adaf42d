import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { notFound } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { backupKey, bookFileOf } from '../backups/index.ts';
import { getPiece } from '../pieces/index.ts';
import * as store from './documents.store.ts';
import { careCard, collectionNotice, takeInReceipt } from './hand-over-papers.ts';
import { packetList } from './packet-list.ts';
import { balanceReminder, bill, paymentReceipt } from './money-papers.ts';
import type { Paper } from './paper.ts';
import { quoteLetter } from './quote-letter.ts';
import { recoveryForm } from './recovery-form.ts';
import { reorderPaper, stocktakeSheet } from './stock-papers.ts';

export type DocumentService = ReturnType<typeof createDocumentService>;

/** Papers: for clients in their language, for the studio in its own. They are written from the book when they are asked for; only a sent letter is kept. */
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
    'packet-lists'(packetId: string): Paper {
      const packet = store.findPacket(db, packetId);
      if (!packet) throw notFound('packet', packetId);
      return packetList(db, packet, clock.now());
    },
    'stocktake-sheets': (stocktakeId: string): Paper => stocktakeSheet(db, stocktakeId),
    /** Of no one thing. */
    reorderList: (): Paper => reorderPaper(db, clock.now()),
    /** Shows what opens every backup: the journal notes who saw it. */
    async recoveryForm(actor: Actor): Promise<Paper> {
      const { identity } = await backupKey(bookFileOf(db));
      const by = writtenBy(actor, clock.now());
      db.transaction((tx) => writeJournal(tx, by, { what: 'backup_key', id: 'recovery-form', after: { shown: true } }));
      return recoveryForm(db, { identity, at: by.at });
    },
  };
}

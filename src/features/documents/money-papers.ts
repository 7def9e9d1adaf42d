import type { Db } from '../../platform/db/client.ts';
import { Problem } from '../../platform/http/problem.ts';
import { accountOf, getCommission } from '../commissions/index.ts';
import * as store from './documents.store.ts';
import { fact, frameFor, linesOf, type Frame } from './frame.ts';
import type { MessageKey } from './messages/en.ts';
import type { Block, Fact, Paper } from './paper.ts';
import { roundingOf } from './quote-letter.ts';

/** A receipt for money taken in, or a note of money sent back. */
export function paymentReceipt(db: Db, payment: store.PaymentRow): Paper {
  const frame = frameFor(db, getCommission(db, payment.commissionId));
  const { wording, called } = frame;
  const { say, money, date } = wording;
  const back = payment.kind === 'send_back';
  if (payment.receivedOn === null)
    throw new Problem('condition-not-met', `Cannot write a receipt for ${called}: the money is due, and not received yet`);
  const kind: MessageKey = back
    ? 'paper.send_back_receipt'
    : payment.kind === 'deposit'
      ? 'paper.deposit_receipt'
      : 'paper.receipt';
  return frame.paper(kind, payment.createdAt, [
    { kind: 'paragraph', text: say(back ? 'receipt.sent_back' : 'receipt.thanks') },
    {
      kind: 'facts',
      rows: [
        ...fact(say(back ? 'label.sent_back' : 'label.received'), money(payment.amountMinor, payment.currency), true),
        ...fact(say('label.for'), `${say(`kind.${payment.kind}` as MessageKey)}, ${called}`),
        ...fact(say('label.how'), say(`how.${payment.how}` as MessageKey)),
        ...fact(say(back ? 'label.date' : 'label.received_on'), date(payment.receivedOn)),
        ...accountFacts(db, frame),
      ],
    },
    ...(payment.kind === 'deposit' ? [{ kind: 'paragraph' as const, text: say('receipt.tax_note') }] : []),
    { kind: 'blanks', labels: [say('label.taken_in_by')] },
  ]);
}

/** What was agreed, what was paid, what is left. */
export function bill(db: Db, commissionId: string, at: Date): Paper {
  const frame = frameFor(db, getCommission(db, commissionId));
  const { wording, called, commission } = frame;
  const { say, money } = wording;
  const quote = store.acceptedQuote(db, commissionId);
  if (!quote)
    throw new Problem('condition-not-met', `Cannot write a bill for ${commission.number}: no version of the quote is accepted`);
  if (commission.state === 'called_off')
    throw new Problem(
      'condition-not-met',
      `Cannot write a bill for ${commission.number}: it is called off; what it came to is in its cancellation statement`,
    );
  const { currency, netMinor, grossMinor, answer, request } = quote;
  const { discountMinor } = answer.totals;
  const roundingMinor = roundingOf(answer);
  const item = say('bill.item', { title: called, count: commission.quantity });
  const tax = grossMinor - netMinor;
  const handedOver = store.enteredState(db, commissionId, 'handed_over');
  const { balanceMinor } = accountOf(db, commissionId);
  return frame.paper('paper.bill', handedOver ?? at.toISOString(), [
    ...(handedOver === undefined ? [{ kind: 'notice' as const, text: say('bill.draft') }] : []),
    { kind: 'paragraph', text: say('bill.intro', { title: called }) },
    {
      kind: 'table',
      head: [say('label.what'), say('label.price')],
      rows: [
        [item, money(netMinor - roundingMinor + discountMinor, currency)],
        ...(discountMinor > 0 ? [[say('label.discount'), money(-discountMinor, currency)]] : []),
        ...(roundingMinor === 0 ? [] : [[say('label.rounding'), money(roundingMinor, currency)]]),
        ...((discountMinor > 0 || roundingMinor !== 0) && tax !== 0 ? [[say('label.net'), money(netMinor, currency)]] : []),
        ...(tax === 0
          ? []
          : [[say('label.tax', { percent: wording.percent(request.policy.tax.rateFraction) }), money(tax, currency)]]),
      ],
      total: [say('label.gross'), money(grossMinor, currency)],
      amounts: true,
    },
    ...paymentsTable(db, frame),
    ...(balanceMinor <= 0 ? [{ kind: 'paragraph' as const, text: say('bill.settled') }] : payTo(frame, 'bill.pay_to')),
  ]);
}

export function balanceReminder(db: Db, commissionId: string, at: Date): Paper {
  const frame = frameFor(db, getCommission(db, commissionId));
  const { wording, called, commission, clientName } = frame;
  const { say, money } = wording;
  const { balanceMinor, currency } = accountOf(db, commissionId);
  if (balanceMinor <= 0) throw new Problem('condition-not-met', `Cannot remind of ${commission.number}: nothing is left to pay`);
  return frame.paper('paper.reminder', at.toISOString(), [
    ...(clientName === null ? [] : [{ kind: 'paragraph' as const, text: say('quote.greeting', { name: clientName }) }]),
    { kind: 'paragraph', text: say('reminder.body', { title: called, amount: money(balanceMinor, currency) }) },
    { kind: 'facts', rows: accountFacts(db, frame) },
    ...payTo(frame, 'reminder.pay_to'),
  ]);
}

/** What is agreed, received and left, of a version that was accepted. */
export function accountFacts(db: Db, { commission, wording }: Pick<Frame, 'commission' | 'wording'>): Fact[] {
  const { say, money } = wording;
  const { grossMinor, receivedMinor, balanceMinor, currency } = accountOf(db, commission.id);
  if (grossMinor === null) return [];
  // What of it stays and what goes back is being settled, so nothing is said to be owed either way.
  if (commission.state === 'called_off') return fact(say('label.received_in_all'), money(receivedMinor, currency));
  return [
    ...fact(say('label.gross'), money(grossMinor, currency)),
    ...fact(say('label.received'), money(receivedMinor, currency)),
    ...(balanceMinor < 0
      ? fact(say('label.owed_back'), money(-balanceMinor, currency), true)
      : fact(say('label.balance'), money(balanceMinor, currency), true)),
  ];
}

function paymentsTable(db: Db, { wording, commission }: Frame): Block[] {
  const { say, money, date } = wording;
  const { balanceMinor, currency } = accountOf(db, commission.id);
  const rows = store
    .paymentsOf(db, commission.id)
    .map(({ kind, receivedOn, amountMinor }) => [
      say('bill.of_paid', { kind: say(`kind.${kind}` as MessageKey), date: date(receivedOn!) }),
      money(kind === 'send_back' ? amountMinor : -amountMinor, currency),
    ]);
  const total = [say(balanceMinor < 0 ? 'label.owed_back' : 'label.balance'), money(Math.abs(balanceMinor), currency)];
  return [{ kind: 'table', head: [say('label.received'), say('label.amount')], rows, total, amounts: true }];
}

/** Where the studio says it is paid. */
export function payTo({ wording, settings }: Frame, key: MessageKey): Block[] {
  const lines = linesOf(settings.papers.payTo);
  if (lines.length === 0) return [];
  return [
    { kind: 'heading', text: wording.say(key) },
    { kind: 'paragraph', text: lines.join('\n') },
  ];
}

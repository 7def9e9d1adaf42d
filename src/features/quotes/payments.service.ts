import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { holdToOwner, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money, sayMoney } from '../../platform/http/money.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { dayAheadErrors } from '../../platform/http/not-yet.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { accountOf, findCommission, showAccount, type Account } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import { movePayment } from './payment-moves.ts';
import type { NewPayment, NewPaymentReply, PaymentMove, PaymentQuery, PaymentReply } from './payments.schema.ts';
import * as store from './payments.store.ts';
import { quotesIn } from './quotes.store.ts';

export type PaymentService = ReturnType<typeof createPaymentService>;
type Given = z.infer<typeof NewPayment>;

/** Payments are entries: once received never changed, never taken out; money that goes back is an entry of its own. */
export function createPaymentService({ db, clock }: Platform) {
  return {
    add(actor: Actor, given: Given): z.infer<typeof NewPaymentReply> {
      if (given.kind === 'send_back') holdToOwner(actor, 'send money back');
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const today = dateInZone(by.at, getSettings(tx).timeZone);
        const receivedOn = given.dueOn === undefined ? (given.receivedOn ?? today) : null;
        holdFields(
          findCommission(tx, given.commissionId)
            ? []
            : [{ pointer: '/commissionId', detail: 'There is no such commission.', given: given.commissionId }],
          null,
        );
        const account = accountOf(tx, given.commissionId);
        const askedMinor = askedOf(tx, given.commissionId, account);
        holdFields(
          [
            ...(receivedOn === null ? [] : dayAheadErrors('/receivedOn', receivedOn, today)),
            ...dueErrors(given, today),
            ...(given.kind === 'send_back' ? sendBackErrors(given, account) : amountErrors(given, account, askedMinor)),
          ],
          actor.confirmed,
        );
        const row = store.insertPayment(tx, {
          id: newId(by.at),
          commissionId: given.commissionId,
          kind: given.kind,
          amountMinor: given.amount.amountMinor,
          currency: given.amount.currency,
          how: given.how,
          receivedOn,
          state: given.kind === 'send_back' ? 'sent_back' : receivedOn === null ? 'due' : 'received',
          dueOn: given.dueOn ?? null,
          reason: given.reason,
          personId: actor.personId,
          createdAt: by.at.toISOString(),
        });
        writeJournal(tx, by, { what: 'payment', id: row.id, after: row });
        return { ...show(tx, actor, row), account: showAccount(accountOf(tx, given.commissionId)) };
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, getPayment(db, id)),

    move(actor: Actor, id: string, sent: z.infer<typeof PaymentMove>): z.infer<typeof NewPaymentReply> {
      return db.transaction((tx) => {
        const after = movePayment(tx, { actor, row: getPayment(tx, id), sent, now: clock.now() });
        return { ...show(tx, actor, after), account: showAccount(accountOf(tx, after.commissionId)) };
      });
    },

    list: (actor: Actor, query: z.infer<typeof PaymentQuery>) =>
      pageOf(store.listPayments(db, query), query, (row) => show(db, actor, row)),
  };
}

/** What is asked of the client: by the accepted version, or by the one sent, since a deposit may come with the yes. */
function askedOf(tx: Db, commissionId: string, { grossMinor }: Account): number | null {
  return grossMinor ?? quotesIn(tx, commissionId, 'sent')[0]?.grossMinor ?? null;
}

function amountErrors(given: Given, account: Account, askedMinor: number | null): FieldError[] {
  const pointer = '/amount/amountMinor';
  const { amountMinor } = given.amount;
  if (askedMinor === null)
    throw new Problem('condition-not-met', 'Cannot take money: no version of the quote is sent or accepted');
  const owedMinor = askedMinor - account.receivedMinor;
  const say = (minor: number) => sayMoney(money(minor, account.currency));
  return [
    ...currencyErrors(given, account),
    ...(amountMinor > 2 * askedMinor
      ? [{ pointer, detail: `That is more than twice the whole price, ${say(askedMinor)}.`, given: amountMinor }]
      : amountMinor > owedMinor
        ? [
            {
              pointer,
              detail: `${say(Math.max(0, owedMinor))} is owed; ${say(amountMinor)} typed. Over-payment?`,
              given: amountMinor,
              confirmable: true,
            },
          ]
        : []),
  ];
}

function sendBackErrors(given: Given, account: Account): FieldError[] {
  const { amountMinor } = given.amount;
  return [
    ...currencyErrors(given, account),
    ...(given.reason === null ? [{ pointer: '/reason', detail: 'Say why it goes back.', given: null }] : []),
    ...(amountMinor > account.receivedMinor
      ? [
          {
            pointer: '/amount/amountMinor',
            detail: `Only ${sayMoney(money(account.receivedMinor, account.currency))} was received.`,
            given: amountMinor,
          },
        ]
      : []),
  ];
}

function currencyErrors({ amount }: Given, { currency }: Account): FieldError[] {
  return amount.currency === currency
    ? []
    : [{ pointer: '/amount/currency', detail: `The price is in ${currency}.`, given: amount.currency }];
}

function dueErrors({ dueOn, receivedOn, kind }: Given, today: string): FieldError[] {
  if (dueOn === undefined) return [];
  const error = (detail: string): FieldError[] => [{ pointer: '/dueOn', detail, given: dueOn }];
  if (receivedOn !== undefined) return error('Money is due or it was received: send one of dueOn and receivedOn.');
  if (kind === 'send_back') return error('Money that goes back is not asked for.');
  return dueOn < today ? error(`That day is over: today is ${today}.`) : [];
}

function getPayment(db: Db, id: string): store.PaymentRow {
  const row = store.findPayment(db, id);
  if (!row) throw notFound('payment', id);
  return row;
}

function show(
  db: Db,
  actor: Actor,
  { amountMinor, currency, personId: _person, ...row }: store.PaymentRow,
): z.infer<typeof PaymentReply> {
  return {
    ...row,
    amount: money(amountMinor, currency),
    sentBack: money(store.sentBackOf(db, row.id), currency),
    allowedMoves: allowedMoves('payment', actor, { state: row.state }),
  } as z.infer<typeof PaymentReply>;
}

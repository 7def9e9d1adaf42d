import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { money, sayMoney } from '../../platform/http/money.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { dayAheadErrors } from '../../platform/http/not-yet.ts';
import { Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import { accountOf } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import type { PaymentMove } from './payments.schema.ts';
import * as store from './payments.store.ts';

type Sent = z.infer<typeof PaymentMove>;

interface Asked {
  actor: Actor;
  row: store.PaymentRow;
  sent: Sent;
  now: Date;
}

/** Money that was due comes in, or money that came in goes back, in part or whole: what goes back is an entry of its own. */
export function movePayment(tx: Db, { actor, row, sent, now }: Asked): store.PaymentRow {
  holdToLifecycle('payment', actor, { state: row.state, sent, now });
  const by = writtenBy(actor, now, sent.deviceId);
  const occurredOn = dateInZone(new Date(sent.occurredAt), getSettings(tx).timeZone);
  if (sent.to === 'received') {
    const receivedOn = sent.receivedOn ?? occurredOn;
    holdFields(
      [
        ...noAmount(sent),
        ...dayAheadErrors('/receivedOn', receivedOn, dateInZone(now, getSettings(tx).timeZone)),
        ...tooMuch(tx, row),
      ],
      actor.confirmed,
    );
    return write(tx, by, row, { state: 'received', receivedOn, how: sent.how ?? row.how });
  }
  const amountMinor = backMinor(tx, row, sent);
  const back = store.insertPayment(tx, {
    id: newId(now),
    commissionId: row.commissionId,
    kind: 'send_back',
    amountMinor,
    currency: row.currency,
    how: sent.how ?? row.how,
    receivedOn: occurredOn,
    state: 'sent_back',
    returnsId: row.id,
    reason: sent.reason!,
    personId: actor.personId,
    createdAt: now.toISOString(),
  });
  writeJournal(tx, by, { what: 'payment', id: back.id, after: back });
  return write(tx, by, row, { state: sent.to });
}

/** How much goes back: what is said, less than all of it; or all that is left. */
function backMinor(tx: Db, row: store.PaymentRow, sent: Sent): number {
  const leftMinor = row.amountMinor - store.sentBackOf(tx, row.id);
  const say = (minor: number) => sayMoney(money(minor, row.currency));
  if (sent.reason === undefined)
    throw new Problem('condition-not-met', 'Cannot send this money back: say why (reason)', { missing: ['say why (reason)'] });
  const whole = sent.to === 'sent_back';
  const amountMinor = sent.amount?.amountMinor ?? (whole ? leftMinor : undefined);
  const { receivedMinor } = accountOf(tx, row.commissionId);
  const pointer = '/amount/amountMinor';
  const given = sent.amount?.amountMinor;
  holdFields(
    [
      ...(sent.receivedOn === undefined
        ? []
        : [{ pointer: '/receivedOn', detail: 'There is no field "receivedOn" with this move.', given: sent.receivedOn }]),
      ...(sent.amount && sent.amount.currency !== row.currency
        ? [{ pointer: '/amount/currency', detail: `It was paid in ${row.currency}.`, given: sent.amount.currency }]
        : []),
      ...(amountMinor === undefined ? [{ pointer: '/amount', detail: 'Say how much of it goes back.' }] : []),
      ...(whole && given !== undefined && given !== leftMinor
        ? [{ pointer, detail: `All that is left of it goes back: ${say(leftMinor)}.`, given }]
        : []),
      ...(!whole && given !== undefined && given >= leftMinor
        ? [{ pointer, detail: `That is all that is left of it, ${say(leftMinor)}: send it back whole (sent_back).`, given }]
        : []),
      ...((amountMinor ?? 0) > receivedMinor
        ? [{ pointer, detail: `Only ${say(receivedMinor)} was received, and not sent back yet.`, given: amountMinor }]
        : []),
    ],
    null,
  );
  return amountMinor!;
}

function noAmount({ amount }: Sent): FieldError[] {
  return amount === undefined
    ? []
    : [{ pointer: '/amount', detail: 'There is no field "amount" with this move.', given: amount }];
}

/** It may have been paid another way since it was asked for. */
function tooMuch(tx: Db, { commissionId, amountMinor, currency }: store.PaymentRow): FieldError[] {
  const { grossMinor, balanceMinor } = accountOf(tx, commissionId);
  if (grossMinor === null || amountMinor <= balanceMinor) return [];
  const say = (minor: number) => sayMoney(money(minor, currency));
  return [
    {
      pointer: '/to',
      detail: `${say(Math.max(0, balanceMinor))} is owed; this is ${say(amountMinor)}. Over-payment?`,
      given: 'received',
      confirmable: true,
    },
  ];
}

function write(tx: Db, by: WrittenBy, before: store.PaymentRow, change: Partial<store.PaymentRow>): store.PaymentRow {
  const after = store.updatePayment(tx, before, change);
  writeJournal(tx, by, { what: 'payment', id: before.id, before, after });
  return after;
}

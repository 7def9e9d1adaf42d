import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { Money, moneyGiven } from '../../platform/http/money.ts';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText } from '../../platform/http/text.ts';
import { withoutCardNumber } from '../clients/index.ts';
import { AccountReply } from '../commissions/index.ts';

const kind = z.enum(['deposit', 'stage', 'balance', 'send_back']);
const how = z.enum(['cash', 'card', 'transfer', 'other']);
const reason = withoutCardNumber(blockOfText(200));

export const NewPayment = z.strictObject({
  commissionId: z.uuid(),
  kind,
  amount: moneyGiven(fenced('payment', 'amountMinor', z.number().int())).describe(
    'Always above zero: a send_back goes to the client.',
  ),
  how,
  receivedOn: z.iso.date().optional().describe('Today, when absent.'),
  dueOn: z.iso
    .date()
    .optional()
    .describe(
      'In place of receivedOn, for money that is asked for by that day: it is due, and counts for nothing until it is received.',
    ),
  reason: reason.nullable().default(null).describe('Needed for money that is sent back.'),
});

export const PaymentParams = z.strictObject({ id: z.uuid() });

const PaymentState = z.enum(LIFECYCLES.payment.states);

export const PaymentQuery = PageQuery.extend({ commissionId: z.uuid().optional(), state: PaymentState.optional() });

export const PaymentMove = z.strictObject({
  ...moveFields,
  to: PaymentState,
  amount: moneyGiven(z.number().int().min(1))
    .optional()
    .describe('With the move to part_sent_back: how much of it goes back. With sent_back: all that is left, which may be said.'),
  how: how.optional().describe('As it was noted, when absent.'),
  receivedOn: z.iso.date().optional().describe('With the move to received: the day of the move, when absent.'),
  reason: reason.optional().describe('Needed for money that is sent back.'),
});

export const PaymentReply = z.object({
  id: z.string(),
  commissionId: z.string(),
  kind,
  amount: Money,
  how,
  receivedOn: z.string().nullable().describe('null: it is due.'),
  dueOn: z.string().nullable(),
  state: PaymentState,
  sentBack: Money.describe('What of it went back.'),
  returnsId: z.string().nullable().describe('Of money sent back: the payment it belongs to.'),
  reason: z.string().nullable(),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

/** With what is owed after it. */
export const NewPaymentReply = PaymentReply.extend({ account: AccountReply });

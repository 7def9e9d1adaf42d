import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { Money, moneyGiven } from '../../platform/http/money.ts';
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
  reason: reason.nullable().default(null).describe('Needed for money that is sent back.'),
});

export const PaymentQuery = PageQuery.extend({ commissionId: z.uuid().optional() });

export const PaymentReply = z.object({
  id: z.string(),
  commissionId: z.string(),
  kind,
  amount: Money,
  how,
  receivedOn: z.string(),
  reason: z.string().nullable(),
  createdAt: z.string(),
});

/** With what is owed after it. */
export const NewPaymentReply = PaymentReply.extend({ account: AccountReply });

import { z } from 'zod';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText } from '../../platform/http/text.ts';
import { withoutCardNumber } from '../clients/index.ts';

const kind = z.enum(['collection_notice', 'balance_reminder', 'new_date', 'other']);
const how = z.enum(['post', 'email', 'phone', 'in_person']);

export const NewClientLetter = z.strictObject({
  commissionId: z.uuid(),
  kind: kind.describe('new_date: that it will be later, or sooner, than promised.'),
  how,
  sentOn: z.iso.date().optional().describe('Today, when absent.'),
  note: withoutCardNumber(blockOfText(400)).nullable().default(null),
});

export const ClientLetterQuery = PageQuery.extend({ commissionId: z.uuid().optional() });

export const ClientLetterReply = z.object({
  id: z.string(),
  commissionId: z.string(),
  kind,
  how,
  sentOn: z.string(),
  note: z.string().nullable(),
  personId: z.string(),
  createdAt: z.string(),
});

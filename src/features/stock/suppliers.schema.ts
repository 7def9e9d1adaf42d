import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { Money, moneyGiven } from '../../platform/http/money.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText, lineOfText } from '../../platform/http/text.ts';

const supplierFields = {
  name: lineOfText(120, 'Say who it is.').describe('Products name their supplier by it.'),
  minimum: moneyGiven(fenced('supplier', 'minimumMinor', z.number().int())).describe('The least they take an order for.'),
  post: moneyGiven(fenced('supplier', 'postMinor', z.number().int())),
  leadWorkingDays: fenced('supplier', 'leadWorkingDays', z.number().int()).describe('From order to delivery.'),
  note: blockOfText(2000).nullable(),
};

export const NewSupplier = z.strictObject({
  ...supplierFields,
  minimum: supplierFields.minimum.optional(),
  post: supplierFields.post.optional(),
  note: supplierFields.note.default(null),
});

export const SupplierChange = z.strictObject({ ...supplierFields, active: z.boolean() }).partial();

export const SupplierReply = z.object({
  id: z.string(),
  name: z.string(),
  minimum: Money,
  post: Money,
  leadWorkingDays: z.number().int(),
  note: z.string().nullable(),
  active: z.boolean(),
  version: z.number().int(),
  createdAt: z.string(),
});

export const SupplierQuery = PageQuery.extend({ active: z.enum(['true', 'false']).optional() });

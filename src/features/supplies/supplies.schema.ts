import { z } from 'zod';
import { Money } from '../../platform/http/money.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

const SupplyKind = z.enum(['flux', 'pickle_salt', 'gas', 'finding', 'stone', 'other']);

const MOST = 100_000;

const decimal = z.string().regex(/^\d{1,6}(\.\d{1,6})?$/, 'Write the amount as a decimal, such as "0.018".');

const fields = {
  name: lineOfText(120, 'Name it as in the list of the supplier.'),
  kind: SupplyKind,
  unit: z.enum(['g', 'piece']).describe('Flux, pickle salt and gas go by the gram.'),
  price: decimal.nullable().describe('For a gram or a piece, in the studio’s currency.'),
  supplier: lineOfText(120).nullable(),
  pack: z.number().positive().max(MOST).describe('What it is sold by, in its unit: of gas, what a cylinder holds.'),
  orderPoint: z.number().min(0).max(MOST).nullable().describe('At or under this, in its unit, it is to be ordered.'),
  safetySheet: lineOfText(200).nullable().describe('Where its safety data sheet is kept.'),
};

export const NewSupply = z.strictObject({
  ...fields,
  price: fields.price.default(null),
  supplier: fields.supplier.default(null),
  pack: fields.pack.default(1),
  orderPoint: fields.orderPoint.default(null),
  safetySheet: fields.safetySheet.default(null),
});

export const SupplyChange = z
  .strictObject({ ...fields, active: z.boolean() })
  .omit({ kind: true, unit: true })
  .partial();

export const SupplyReply = z.object({
  id: z.string(),
  ...fields,
  price: fields.price.optional().describe('For owner and desk.'),
  onHand: z.number().describe('In its unit.'),
  packsOnHand: z.number().describe('On hand ÷ pack: of gas, cylinders.'),
  value: Money.optional().describe('On hand at the running average of what was paid. For owner and desk.'),
  averageCost: z.string().nullable().optional().describe('Of a gram or a piece; null until some came in. For owner and desk.'),
  orderNow: z.boolean(),
  order: z.number().describe('What to order, in whole packs, to come above the order point; 0: none.'),
  active: z.boolean(),
  version: z.number().int(),
  createdAt: z.string(),
});

export const SupplyQuery = PageQuery.extend({
  kind: SupplyKind.optional(),
  active: z.enum(['true', 'false']).optional(),
  orderNow: z.enum(['true', 'false']).optional().describe('true: at or under its order point, and in use.'),
});

const HandKind = z.enum(['receive', 'use', 'put_back', 'count_up', 'count_down', 'write_off']);

const reason = z.string().trim().min(3).max(200);

export const NewSupplyMovement = z.strictObject({
  kind: HandKind,
  supplyId: z.uuid(),
  quantity: z.number().positive().max(MOST).describe('Grams or pieces, as the supply goes.'),
  unitCost: decimal.optional().describe('Of what comes in; its price when absent.'),
  reason: reason.optional().describe('Needed to count and to write off.'),
});

export const SupplyReversal = z.strictObject({ reason });

export const SupplyMovementReply = z.object({
  id: z.string(),
  kind: z.enum([...HandKind.options, 'reverse']),
  supplyId: z.string(),
  onHand: z.number().describe('What it did to the supply, in its unit: negative out of it.'),
  unitCost: z.string().nullable().optional().describe('For owner and desk.'),
  reason: z.string().nullable(),
  reversesId: z.string().nullable(),
  reversedById: z.string().nullable(),
  at: z.string(),
  personId: z.string().nullable(),
});

export const SupplyMovementQuery = PageQuery.extend({ supplyId: z.uuid().optional() });

export const SupplyParams = z.strictObject({ id: z.uuid() });

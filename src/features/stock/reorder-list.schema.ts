import { z } from 'zod';
import { TableFormat } from '../../platform/http/csv.ts';
import { Money } from '../../platform/http/money.ts';
import { SolderFormName, UnitPrice } from './stock-fields.ts';

export const ReorderQuery = z.strictObject({
  format: TableFormat,
  all: z.enum(['true', 'false']).default('false').describe('Also the products that need no order now.'),
});

const ReorderLine = z.object({
  productId: z.string(),
  code: z.string(),
  name: z.string(),
  form: SolderFormName,
  onHandG: z.number().describe('In lots that a heat may draw from.'),
  heldG: z.number(),
  onOrderG: z.number(),
  largestPieceG: z.number(),
  weeklyUseG: z.array(z.number()).describe('Oldest first, zeros included: at most 52.'),
  orderPointG: z.number(),
  decidedBy: z.enum(['use', 'largest_piece', 'short_history']),
  rateGPerWeek: z.number(),
  orderNow: z.boolean(),
  packG: z.number(),
  orderG: z.number(),
  packs: z.number(),
  price: UnitPrice,
  cost: Money,
  leadWeeks: z.number().int(),
  working: z.array(z.string()).describe('How it came about, a sentence a step.'),
});

export const ReorderReply = z.object({
  asOf: z.string(),
  currency: z.string(),
  suppliers: z.array(z.object({ supplier: z.string(), lines: z.array(ReorderLine), total: Money })),
});

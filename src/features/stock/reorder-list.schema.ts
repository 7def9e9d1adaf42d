import { z } from 'zod';
import { TableFormat } from '../../platform/http/csv.ts';
import { Money } from '../../platform/http/money.ts';
import { SolderFormName, UnitPrice } from './stock-fields.ts';
import { NewSupplierOrder } from './supplier-orders.schema.ts';

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
  expectedOn: z.string().nullable().describe('When the next of it is expected.'),
  positionG: z.number().describe('On hand + on order − held.'),
  positionToPoint: z.number().nullable().describe('Position ÷ order point: the smaller, the sooner it is needed.'),
  because: z
    .enum(['at_its_point', 'companion'])
    .nullable()
    .describe('companion: it comes along to reach the minimum; null: not to be ordered.'),
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
  suppliers: z.array(
    z.object({
      supplier: z.string(),
      supplierId: z.string().nullable().describe('Null: note the supplier first (POST /suppliers) to order from it.'),
      lines: z.array(ReorderLine),
      total: Money.describe('Of what is to be ordered.'),
      minimum: Money,
      minimumMet: z.boolean(),
      says: z.string(),
      order: NewSupplierOrder.nullable().describe('Ready to post to /supplier-orders.'),
    }),
  ),
});

import { z } from 'zod';
import { TableFormat } from '../../platform/http/csv.ts';
import { Money } from '../../platform/http/money.ts';
import { SupplyReply } from '../supplies/index.ts';
import { SolderFormName, UnitPrice } from './stock-fields.ts';
import { NewSupplierOrder } from './supplier-orders.schema.ts';

export const ReorderQuery = z.strictObject({
  format: TableFormat,
  all: z.enum(['true', 'false']).default('false').describe('Also the products that need no order now.'),
});

const ReorderLine = z.object({
  of: z.enum(['solder', 'metal']),
  productId: z.string(),
  code: z.string().describe('Of a solder its code; of metal the id of the metal.'),
  name: z.string(),
  form: SolderFormName.nullable().describe('Null of metal: its name says it.'),
  onHandG: z.number().describe('In lots that a heat may draw from; of metal, what is ours.'),
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

const { kind, unit, supplier } = SupplyReply.shape;

const SupplyToOrder = z.object({
  supplyId: z.string(),
  name: z.string(),
  kind,
  unit,
  supplier,
  onHand: z.number().describe('In its unit, like all that follows.'),
  orderPoint: z.number(),
  pack: z.number(),
  packs: z.number().int(),
  order: z.number(),
  cost: Money.nullable().describe('Null while it has no price.'),
});

export const ReorderReply = z.object({
  asOf: z.string(),
  currency: z.string(),
  metalHeldOfNoSize: z
    .array(z.object({ metal: z.string(), heldG: z.number() }))
    .describe('Metal held for parts that no metal product is of the size of: note the product it is to be cut from.'),
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
  supplies: z
    .array(SupplyToOrder)
    .describe(
      'Flux, pickle salt, gas, findings and stones at the order point typed for them or under it, by name. What comes of them is booked by POST /supply-movements.',
    ),
});

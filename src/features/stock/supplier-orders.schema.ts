import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { Money, moneyGiven } from '../../platform/http/money.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { NewSolderLot, SolderLotReply } from './solder-lots.schema.ts';
import { UnitPrice } from './stock-fields.ts';

const OrderState = z.enum(LIFECYCLES.supplier_order.states);

const NewOrderLine = z.strictObject({
  productId: z.uuid().optional().describe('A solder product; or metalProductId.'),
  metalProductId: z.uuid().optional(),
  quantityG: fenced('lot', 'quantityG', z.number()).describe('In whole packs.'),
  price: UnitPrice.optional().describe("The product's own when absent."),
});
const lines = z.array(NewOrderLine).min(1, 'An order needs a line.').max(60);
const promisedOn = z.iso.date().describe('The day the supplier promised.');

export const NewSupplierOrder = z.strictObject({ supplierId: z.uuid(), lines });

export const SupplierOrderChange = z
  .strictObject({ lines: lines.describe('All of them; until it is sent.'), promisedOn: promisedOn.describe('A new promise.') })
  .partial();

export const SupplierOrderMove = z.strictObject({
  ...moveFields,
  promisedOn: promisedOn.optional().describe('With the move to promised.'),
  closeShort: z.boolean().optional().describe('With the move to in: what did not come is not waited for.'),
  invoice: moneyGiven(z.number().int().min(0).max(1_000_000_000))
    .optional()
    .describe('With the move to squared: what the invoice asks for the goods, without post and tax.'),
});

const DeliveryLine = NewSolderLot.omit({ productId: true, receivedOn: true, unitCost: true }).extend({
  lineId: z.uuid(),
  unitCost: UnitPrice.optional().describe('As ordered when absent.'),
});

export const NewDelivery = z.strictObject({
  receivedOn: z.iso.date(),
  lines: z.array(DeliveryLine).min(1, 'Say what came.').max(60),
});

const OrderLineReply = z.object({
  id: z.string(),
  productId: z.string().nullable(),
  metalProductId: z.string().nullable(),
  name: z.string(),
  orderedG: z.number(),
  receivedG: z.number(),
  openG: z.number().describe('Still to come.'),
  price: UnitPrice.optional(),
  cost: Money.optional(),
  closedShort: z.boolean(),
});

export const SupplierOrderReply = z.object({
  id: z.string(),
  number: z.string(),
  supplierId: z.string(),
  supplier: z.string(),
  state: OrderState,
  stateReason: z.string().nullable(),
  sentOn: z.string().nullable(),
  promisedOn: z.string().nullable(),
  expectedOn: z.string().nullable().describe('As promised; without a promise, the lead time after it was sent.'),
  lines: z.array(OrderLineReply),
  total: Money.optional().describe('For owner and desk, as all prices.'),
  minimum: Money.optional(),
  minimumMet: z.boolean(),
  received: Money.optional().describe('What came, at what it cost.'),
  invoice: Money.nullable().optional(),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

export const DeliveryReply = z.object({
  lots: z.array(SolderLotReply).describe('Of solder; what is unmarked is held back.'),
  metalLotIds: z.array(z.string()),
  order: SupplierOrderReply,
});

export const SupplierOrderQuery = PageQuery.extend({ supplierId: z.uuid().optional(), state: OrderState.optional() });

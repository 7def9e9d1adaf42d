import { z } from 'zod';
import { TableFormat } from '../../platform/http/csv.ts';
import { Money } from '../../platform/http/money.ts';
import { SolderFormName, Standing, UnitPrice } from './stock-fields.ts';

export const StockQuery = z.strictObject({ format: TableFormat });

export const StockReply = z.object({
  asOf: z.string(),
  currency: z.string(),
  items: z.array(
    z.object({
      productId: z.string(),
      code: z.string(),
      name: z.string(),
      gradeWord: z.string(),
      form: SolderFormName,
      onHandG: z.number(),
      usableG: z.number().describe('In lots that a heat may draw from.'),
      heldG: z.number(),
      freeG: z.number().describe('Usable less held; below nothing: more is promised to pieces than there is.'),
      value: Money.optional().describe(
        'Oldest used first, so the grams on hand are those of the newest deliveries. For owner and desk.',
      ),
      valuedAt: z.array(z.object({ lot: z.string(), grams: z.number(), unitCost: UnitPrice })).optional(),
      lots: z.array(
        z.object({
          lotId: z.string(),
          number: z.string(),
          receivedOn: z.string(),
          state: z.string(),
          stateReason: z.string().nullable(),
          markOnMetal: z.string().nullable(),
          useBy: z.string().nullable(),
          cadmiumStanding: Standing,
          onHandG: z.number(),
          unitCost: UnitPrice.optional(),
          valueAtOwnCost: Money.optional().describe('What is in this lot, at what this lot cost.'),
        }),
      ),
    }),
  ),
  metals: z.array(
    z.object({
      productId: z.string(),
      name: z.string(),
      metal: z.string(),
      form: z.string(),
      onHandG: z.number().describe('Ours.'),
      heldG: z.number(),
      freeG: z.number().describe('Below nothing: more is promised to pieces than there is.'),
      value: Money.optional(),
      clientG: z.number().describe('Left by clients: apart, and worth nothing to us.'),
    }),
  ),
  metalHeldOfNoSize: z
    .array(z.object({ metal: z.string(), heldG: z.number() }))
    .describe('Held for parts that no metal product is of the size of.'),
  totalValue: Money.optional().describe('Of solder and of metal that is ours.'),
});

export const AuditReply = z.object({
  asOf: z.string(),
  ok: z
    .boolean()
    .describe(
      'The ledgers of solder, of metal and of supplies, added up again line by line, are what the stock shows; no lot was ever below what a scale may err; and what was paid, less what every issue cost, is what is left is worth.',
    ),
  movements: z.number().int(),
  lots: z.number().int(),
  products: z.number().int(),
  metal: z.object({ movements: z.number().int(), holds: z.number().int(), lots: z.number().int(), products: z.number().int() }),
  supplies: z.object({ movements: z.number().int(), supplies: z.number().int() }),
  findings: z.array(
    z.object({
      what: z.enum([
        'lot',
        'product',
        'piece',
        'movement',
        'metal_lot',
        'metal_product',
        'metal_movement',
        'metal_hold',
        'supply',
        'supply_movement',
      ]),
      id: z.string(),
      says: z.string(),
    }),
  ),
});

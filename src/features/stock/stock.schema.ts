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
  totalValue: Money.optional(),
});

export const AuditReply = z.object({
  asOf: z.string(),
  ok: z
    .boolean()
    .describe(
      'The ledger, added up again line by line, is what the stock shows, and no lot was ever below what a scale may err.',
    ),
  movements: z.number().int(),
  lots: z.number().int(),
  products: z.number().int(),
  findings: z.array(z.object({ what: z.enum(['lot', 'product', 'piece', 'movement']), id: z.string(), says: z.string() })),
});

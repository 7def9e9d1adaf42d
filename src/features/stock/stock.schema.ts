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
      /** In lots that a heat may draw from. */
      usableG: z.number(),
      heldG: z.number(),
      /** Usable less held; below nothing: more is promised to pieces than there is. */
      freeG: z.number(),
      /** Oldest used first, so the grams on hand are those of the newest deliveries. For owner and desk. */
      value: Money.optional(),
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
          /** What is in this lot, at what this lot cost. */
          valueAtOwnCost: Money.optional(),
        }),
      ),
    }),
  ),
  totalValue: Money.optional(),
});

export const AuditReply = z.object({
  asOf: z.string(),
  /** The ledger, added up again line by line, is what the stock shows, and no lot was ever below what a scale may err. */
  ok: z.boolean(),
  movements: z.number().int(),
  lots: z.number().int(),
  products: z.number().int(),
  findings: z.array(z.object({ what: z.enum(['lot', 'product', 'piece', 'movement']), id: z.string(), says: z.string() })),
});

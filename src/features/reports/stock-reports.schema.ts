import { z } from 'zod';
import { Money } from '../../platform/http/money.ts';
import { ReorderReply } from '../stock/index.ts';
import { head } from './report-head.ts';

export const ToOrderReply = z.object({ report: z.literal('to-order'), ...head, ...ReorderReply.shape });

export const StockWorthReply = z.object({
  report: z.literal('stock-worth'),
  ...head,
  currency: z.string(),
  method: z.enum(['oldest_first', 'average']),
  total: Money,
  rows: z.array(
    z.object({
      of: z.enum(['solder', 'metal']),
      productId: z.string(),
      product: z.string(),
      onHandG: z.number(),
      heldG: z.number(),
      value: Money,
      lots: z.array(
        z.object({ lotId: z.string(), number: z.string(), onHandG: z.number(), costPerG: z.string(), valueAtOwnCost: Money }),
      ),
    }),
  ),
  supplies: z
    .array(z.object({ supplyId: z.string(), name: z.string(), unit: z.enum(['g', 'piece']), onHand: z.number(), value: Money }))
    .describe('Flux, pickle salt, gas, findings and stones, at the running average of what was paid.'),
  suppliesTotal: Money,
  clientMetal: z
    .array(
      z.object({ lotId: z.string(), number: z.string(), product: z.string(), commissionId: z.string(), onHandG: z.number() }),
    )
    .describe('Left with us, and worth nothing to us.'),
});

export const MetalBalanceReply = z.object({
  report: z.literal('metal-balance'),
  ...head,
  rows: z.array(
    z.object({
      metal: z.string(),
      issuedG: z.number(),
      inWorkG: z.number().describe('Issued to pieces that are not built yet.'),
      inPiecesG: z.number().describe('Of built pieces: as weighed, or as their design computes it.'),
      putBackG: z.number(),
      jarG: z.number().describe('Expected filings of built pieces, and the metal of scrapped ones.'),
      unexplainedG: z.number(),
      unexplainedFraction: z.number().nullable(),
      entries: z.object({ pieceIds: z.array(z.string()) }),
    }),
  ),
});

const Section = z.enum(['stock', 'unfinished', 'filings', 'client_metal', 'deposits', 'tax']);

export const YearEndReply = z.object({
  report: z.literal('year-end'),
  ...head,
  on: z.string().describe('The last day of the period: what is counted is as it was that evening, where the books can tell.'),
  currency: z.string(),
  totals: z.object({ stock: Money, unfinished: Money, filings: Money.nullable(), deposits: Money, tax: Money }),
  rows: z.array(
    z.object({
      section: Section,
      what: z.string(),
      number: z.string().nullable(),
      grams: z.number().nullable(),
      cost: Money.nullable(),
      value: Money.nullable().describe('At the price of today; of filings, what a refiner would pay.'),
      counted: Money.nullable().describe('Stock at the lower of cost and value; null where a price is missing.'),
      month: z.string().nullable(),
      rateFraction: z.number().nullable(),
      entryIds: z.array(z.string()),
    }),
  ),
});

const clock = z.object({ usedG: z.number(), limitG: z.number(), fraction: z.number() });

export const PickleReply = z.object({
  report: z.literal('pickle-baths'),
  ...head,
  rows: z.array(
    z.object({
      bathId: z.string(),
      number: z.string(),
      acid: z.string(),
      openedOn: z.string(),
      state: z.string(),
      dips: z.number().int(),
      copperGPerL: z.number(),
      copper: clock,
      acidUsed: clock.nullable(),
      acidLeftFraction: z.number().nullable().describe('Of the share that is usable.'),
      blushes: z.number().int(),
      says: z.string(),
      ph: z.number().nullable(),
      goneTo: z.string().nullable(),
      goneOn: z.string().nullable(),
    }),
  ),
});

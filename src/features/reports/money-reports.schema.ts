import { z } from 'zod';
import { Money } from '../../platform/http/money.ts';
import { head } from './report-head.ts';

export const EarnedPerHourReply = z.object({
  report: z.literal('earned-per-hour'),
  ...head,
  currency: z.string(),
  rows: z.array(
    z.object({
      kind: z.string(),
      jobs: z.number().int(),
      benchHours: z.number(),
      net: Money,
      boughtIn: Money.describe('Metal, solder, hallmarks and what passed through.'),
      netLessBoughtIn: Money,
      earnedPerHour: Money.nullable().describe('Null where no hours were noted.'),
      entries: z.object({ commissionIds: z.array(z.string()), quoteIds: z.array(z.string()), benchTimeIds: z.array(z.string()) }),
    }),
  ),
});

const Cause = z.enum(['discount', 'minutes', 'rework', 'metal', 'solder', 'bought_in', 'not_needed']);

export const LostMoneyReply = z.object({
  report: z.literal('lost-money'),
  ...head,
  currency: z.string(),
  rows: z.array(
    z.object({
      commissionId: z.string(),
      number: z.string(),
      title: z.string(),
      day: z.string(),
      lost: z.boolean(),
      plannedProfit: Money.describe('Before any discount.'),
      plannedMarginFraction: z.number().nullable(),
      trueProfit: Money,
      trueMarginFraction: z.number().nullable(),
      largestCause: Cause.nullable().describe('Where most was lost; null where nothing was.'),
      causes: z
        .array(z.object({ cause: Cause, amount: Money }))
        .describe('From the planned profit to the true one, in order: they add up to the difference.'),
      entries: z.object({
        quoteId: z.string(),
        benchTimeIds: z.array(z.string()),
        movementIds: z.array(z.string()),
        packetIds: z.array(z.string()),
        incidentIds: z.array(z.string()),
      }),
    }),
  ),
});

export const QuoteOutcomesReply = z.object({
  report: z.literal('quote-outcomes'),
  ...head,
  rows: z.array(
    z.object({
      month: z.string(),
      sent: z.number().int(),
      accepted: z.number().int(),
      declined: z.number().int(),
      lapsed: z.number().int(),
      replaced: z.number().int().describe('By a version sent later, or withdrawn, before anybody answered.'),
      open: z.number().int(),
      acceptedFraction: z.number().nullable().describe('Of those that were answered or lapsed.'),
      medianDays: z.number().nullable().describe('From sent to answered.'),
      medianDiscountFraction: z.number(),
      entries: z.object({ quoteIds: z.array(z.string()) }),
    }),
  ),
});

export const MoneyOwedReply = z.object({
  report: z.literal('money-owed'),
  ...head,
  currency: z.string(),
  owedToUs: Money,
  weOwe: Money,
  depositsNotBegun: Money.describe('Received for work that is agreed and not begun.'),
  rows: z.array(
    z.object({
      commissionId: z.string(),
      number: z.string(),
      title: z.string(),
      client: z.string().nullable(),
      state: z.string(),
      day: z.string(),
      ageDays: z.number().int(),
      gross: Money.nullable(),
      received: Money,
      balance: Money.describe('Gross less everything received; below zero, we owe it.'),
      depositNotBegun: Money.nullable(),
      entries: z.object({ quoteId: z.string().nullable(), paymentIds: z.array(z.string()) }),
    }),
  ),
});

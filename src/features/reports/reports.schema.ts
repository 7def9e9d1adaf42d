import { z } from 'zod';
import { TableFormat } from '../../platform/http/csv.ts';
import { Money } from '../../platform/http/money.ts';
import {
  HallmarkPacketsReply,
  LateWorkReply,
  MishapsReply,
  NotCollectedReply,
  RemeltWarningsReply,
  StudentGuessesReply,
  TimeGuessesReply,
} from './bench-reports.schema.ts';
import { EarnedPerHourReply, LostMoneyReply, MoneyOwedReply, QuoteOutcomesReply } from './money-reports.schema.ts';
import { head } from './report-head.ts';
import { MetalBalanceReply, PickleReply, StockWorthReply, ToOrderReply, YearEndReply } from './stock-reports.schema.ts';

export const ReportName = z.enum([
  'quote-against-actual',
  'time-guesses',
  'earned-per-hour',
  'lost-money',
  'remelt-warnings',
  'bench-load',
  'late-work',
  'solder-use',
  'to-order',
  'stock-worth',
  'mishaps',
  'metal-balance',
  'quote-outcomes',
  'money-owed',
  'year-end',
  'pickle-baths',
  'not-collected',
  'student-guesses',
  'hallmark-packets',
]);

export const ReportListReply = z.object({
  items: z.array(
    z.object({
      name: ReportName,
      question: z.string().describe('What it answers, as people ask it.'),
      shows: z.string(),
      whose: z.enum(['owner', 'desk', 'tutor', 'everybody']).describe('Who may read it, beside the owner.'),
      mayRead: z.boolean(),
      path: z.string(),
    }),
  ),
});

export const ReportParams = z.strictObject({ name: ReportName });

export const ReportQuery = z
  .strictObject({
    from: z.iso.date().optional().describe("First and last day, both included, in the studio's zone."),
    to: z.iso.date().optional(),
    format: TableFormat,
  })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    path: ['to'],
    message: 'The last day is before the first.',
  });

export interface Period {
  from: string | null;
  to: string | null;
}

const quantities = { minutes: z.number(), metalG: z.number(), solderG: z.number() };

export const QuoteAgainstActualReply = z.object({
  report: z.literal('quote-against-actual'),
  ...head,
  currency: z.string(),
  rows: z.array(
    z.object({
      commissionId: z.string(),
      number: z.string(),
      title: z.string(),
      kind: z.string(),
      state: z.string(),
      day: z.string(),
      quoted: z.object({
        quoteNumber: z.number().int().nullable(),
        basis: z.enum(['quote', 'plan', 'none']),
        minutes: z.number().nullable(),
        metalG: z.number().nullable(),
        solderG: z.number().nullable(),
        cost: Money.nullable(),
        price: Money.nullable(),
        marginFraction: z.number().nullable(),
      }),
      actual: z.object({
        ...quantities,
        labour: Money,
        overhead: Money,
        consumables: Money,
        metal: Money,
        solder: Money,
        hallmark: Money,
        boughtIn: Money,
        cost: Money,
        price: Money.nullable(),
        marginFraction: z.number().nullable().describe('Once the work is over and all its costs are known.'),
      }),
      pieces: z.array(z.object({ pieceId: z.string(), number: z.string(), state: z.string(), ...quantities, cost: Money })),
      notes: z.array(z.string()),
      entries: z.object({
        quoteId: z.string().nullable(),
        benchTimeIds: z.array(z.string()),
        movementIds: z.array(z.string()),
        packetIds: z.array(z.string()),
      }),
    }),
  ),
});

export const SolderUseReply = z.object({
  report: z.literal('solder-use'),
  ...head,
  rows: z.array(
    z.object({
      month: z.string(),
      productId: z.string(),
      code: z.string(),
      name: z.string(),
      grams: z.number(),
      inHeatsG: z.number(),
      jointsMade: z.number().int(),
      gPerJoint: z.number().nullable(),
      solderings: z.number().int(),
      redone: z.number().int(),
      redoneFraction: z.number().nullable(),
      entries: z.object({ movementIds: z.array(z.string()), heatIds: z.array(z.string()) }),
    }),
  ),
});

export const BenchLoadReply = z.object({
  report: z.literal('bench-load'),
  ...head,
  today: z.string(),
  minutesPerDay: z.number(),
  benches: z.number().int(),
  rows: z.array(
    z.object({
      commissionId: z.string(),
      number: z.string(),
      title: z.string(),
      state: z.string(),
      waitingFor: z.string().nullable(),
      dueOn: z.string().nullable(),
      basis: z.enum(['quote', 'plan', 'none']),
      plannedMinutes: z.number(),
      eightInTenMinutes: z.number().describe('It stays under these eight times in ten.'),
      doneMinutes: z.number(),
      minutesLeft: z.number(),
      runningMinutes: z.number().describe('Of this and all that is due before it.'),
      workingDays: z.number().int().nullable(),
      capacityMinutes: z.number().nullable(),
      loadFraction: z.number().nullable().describe('Over 1: not in time.'),
      finishesOn: z.string().nullable(),
      slackMinutes: z.number().nullable().describe('To spare by the due date; below 0: so many are missing.'),
      lateDays: z.number().int().nullable().describe('Null: it has no due date.'),
      notes: z.array(z.string()),
      entries: z.object({ quoteId: z.string().nullable(), benchTimeIds: z.array(z.string()) }),
    }),
  ),
  days: z
    .array(
      z.object({
        on: z.string(),
        capacityMinutes: z.number().describe('0: closed, or everybody is away.'),
        takenMinutes: z.number(),
        jobs: z.array(z.object({ commissionId: z.string(), number: z.string(), minutes: z.number() })),
      }),
    )
    .describe('The coming eight weeks, today first, whatever period is asked for: the earliest due worked first.'),
});

export const ReportReply = z.discriminatedUnion('report', [
  QuoteAgainstActualReply,
  SolderUseReply,
  BenchLoadReply,
  EarnedPerHourReply,
  LostMoneyReply,
  QuoteOutcomesReply,
  MoneyOwedReply,
  ToOrderReply,
  StockWorthReply,
  MetalBalanceReply,
  YearEndReply,
  PickleReply,
  TimeGuessesReply,
  RemeltWarningsReply,
  LateWorkReply,
  MishapsReply,
  NotCollectedReply,
  StudentGuessesReply,
  HallmarkPacketsReply,
]);

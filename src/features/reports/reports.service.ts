import type { z } from 'zod';
import type { Actor } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import { benchLoadCsv, benchLoadReport } from './bench-load-report.ts';
import { earnedPerHour, earnedPerHourCsv } from './earned-per-hour.ts';
import { lostMoney, lostMoneyCsv } from './lost-money.ts';
import { metalBalance, metalBalanceCsv } from './metal-balance.ts';
import { moneyOwed, moneyOwedCsv } from './money-owed.ts';
import { pickleCsv, pickleReport } from './pickle-report.ts';
import { quoteAgainstActual, quoteAgainstActualCsv } from './quote-against-actual.ts';
import { quoteOutcomes, quoteOutcomesCsv } from './quote-outcomes.ts';
import type { Period, ReportName, ReportReply } from './reports.schema.ts';
import { solderUseCsv, solderUseReport } from './solder-use-report.ts';
import { stockWorth, stockWorthCsv } from './stock-worth.ts';
import { toOrder, toOrderCsv } from './to-order.ts';
import { yearEnd, yearEndCsv } from './year-end.ts';

type Name = z.infer<typeof ReportName>;
type Report = z.infer<typeof ReportReply>;

const FOR_OWNER = new Set<Name>(['quote-against-actual', 'earned-per-hour', 'lost-money', 'year-end']);
const FOR_DESK = new Set<Name>(['quote-outcomes', 'money-owed', 'to-order', 'stock-worth']);

export type ReportService = ReturnType<typeof createReportService>;

export function createReportService({ db, clock }: Platform) {
  return {
    make(actor: Actor, name: Name, period: Period): Report {
      if (FOR_OWNER.has(name) && !actor.roles.has('owner'))
        throw new Problem('forbidden', 'Cannot show costs and margins: they are for the owner');
      if (FOR_DESK.has(name) && !actor.roles.has('desk'))
        throw new Problem('forbidden', 'Cannot show what clients owe and answer, or what stock costs: that is for the desk');
      const asked = { now: clock.now(), period };
      switch (name) {
        case 'quote-against-actual':
          return quoteAgainstActual(db, asked);
        case 'earned-per-hour':
          return earnedPerHour(db, asked);
        case 'lost-money':
          return lostMoney(db, asked);
        case 'quote-outcomes':
          return quoteOutcomes(db, asked);
        case 'money-owed':
          return moneyOwed(db, asked);
        case 'solder-use':
          return solderUseReport(db, asked);
        case 'bench-load':
          return benchLoadReport(db, asked);
        case 'to-order':
          return toOrder(db, asked);
        case 'stock-worth':
          return stockWorth(db, asked);
        case 'metal-balance':
          return metalBalance(db, asked);
        case 'year-end':
          return yearEnd(db, asked);
        case 'pickle-baths':
          return pickleReport(db, asked);
        default:
          return name satisfies never;
      }
    },
  };
}

export function reportCsv(report: Report): string {
  switch (report.report) {
    case 'quote-against-actual':
      return quoteAgainstActualCsv(report);
    case 'solder-use':
      return solderUseCsv(report);
    case 'bench-load':
      return benchLoadCsv(report);
    case 'earned-per-hour':
      return earnedPerHourCsv(report);
    case 'lost-money':
      return lostMoneyCsv(report);
    case 'quote-outcomes':
      return quoteOutcomesCsv(report);
    case 'money-owed':
      return moneyOwedCsv(report);
    case 'to-order':
      return toOrderCsv(report);
    case 'stock-worth':
      return stockWorthCsv(report);
    case 'metal-balance':
      return metalBalanceCsv(report);
    case 'year-end':
      return yearEndCsv(report);
    case 'pickle-baths':
      return pickleCsv(report);
    default:
      return report satisfies never;
  }
}

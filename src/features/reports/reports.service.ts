import type { z } from 'zod';
import type { Actor } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import { benchLoadCsv, benchLoadReport } from './bench-load-report.ts';
import { quoteAgainstActual, quoteAgainstActualCsv } from './quote-against-actual.ts';
import type { Period, ReportName, ReportReply } from './reports.schema.ts';
import { solderUseCsv, solderUseReport } from './solder-use-report.ts';

type Name = z.infer<typeof ReportName>;
type Report = z.infer<typeof ReportReply>;

export type ReportService = ReturnType<typeof createReportService>;

export function createReportService({ db, clock }: Platform) {
  return {
    make(actor: Actor, name: Name, period: Period): Report {
      const asked = { now: clock.now(), period };
      switch (name) {
        case 'quote-against-actual':
          if (!actor.roles.has('owner')) throw new Problem('forbidden', 'Cannot show costs and margins: they are for the owner');
          return quoteAgainstActual(db, asked);
        case 'solder-use':
          return solderUseReport(db, asked);
        case 'bench-load':
          return benchLoadReport(db, asked);
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
    default:
      return report satisfies never;
  }
}

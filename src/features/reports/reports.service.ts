import type { z } from 'zod';
import type { Actor } from '../../platform/http/actor.ts';
import { Problem } from '../../platform/http/problem.ts';
import type { Platform } from '../../platform/platform.ts';
import { REPORTS } from './report-list.ts';
import { ReportName, type Period, type ReportListReply, type ReportReply } from './reports.schema.ts';

type Name = z.infer<typeof ReportName>;

export type ReportService = ReturnType<typeof createReportService>;

export function createReportService({ db, clock }: Platform) {
  return {
    /** Every report there is, with the question it answers. */
    list: (actor: Actor): z.infer<typeof ReportListReply> => ({
      items: ReportName.options.map((name) => {
        const { question, shows, whose } = REPORTS[name];
        return {
          name,
          question,
          shows,
          whose,
          mayRead: whose === 'everybody' || isOf(actor, whose),
          path: `/api/v1/reports/${name}`,
        };
      }),
    }),

    /** A report over a period, and the same as a table. */
    make(actor: Actor, name: Name, period: Period): { report: z.infer<typeof ReportReply>; csv: () => string } {
      const { whose, make } = REPORTS[name];
      if (whose !== 'everybody' && !isOf(actor, whose)) throw new Problem('forbidden', REFUSALS[whose]);
      return make(db, { now: clock.now(), period, actor });
    },
  };
}

const REFUSALS = {
  owner: 'Cannot show costs, margins and times of work: they are for the owner',
  desk: 'Cannot show what clients owe and answer, or what stock costs: that is for the desk',
  tutor: 'Cannot show how students are doing: that is for tutors and the owner',
};

function isOf({ roles, tutor }: Actor, whose: keyof typeof REFUSALS): boolean {
  return roles.has('owner') || (whose === 'tutor' ? tutor : roles.has(whose));
}

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { sendCsv, tableReply } from '../../platform/http/csv.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { ReportParams, ReportQuery, ReportReply } from './reports.schema.ts';
import { reportCsv, type ReportService } from './reports.service.ts';

export const reportRoutes: FastifyPluginAsyncZod<{ reports: ReportService }> = async (app, { reports }) => {
  app.get(
    '/:name',
    {
      schema: {
        tags: ['reports'],
        summary: 'A report over some days, with the entries behind its numbers',
        description:
          'quote-against-actual (the owner’s): did we make money on it? earned-per-hour (the owner’s): what pays? lost-money (the owner’s): which commissions lost money, and why? quote-outcomes (the desk’s): are quotes taken? money-owed (the desk’s): who owes us, and whom do we owe? solder-use: what do we use of each grade, and how much of it again? bench-load: can we keep our dates? to-order (the desk’s): what must we order? stock-worth (the desk’s): what is in the drawer worth? metal-balance: where is the metal? year-end (the owner’s): stock, work in hand, filings, client metal, deposits, tax. pickle-baths: is the pickle tired?',
        params: ReportParams,
        querystring: ReportQuery,
        response: { 200: tableReply(ReportReply), ...problemReplies },
      },
    },
    async (request, reply) => {
      const { from = null, to = null, format } = request.query;
      const { name } = request.params;
      const report = reports.make(actorOf(request), name, { from, to });
      return format === 'csv' ? sendCsv(reply, name, reportCsv(report)) : report;
    },
  );
};

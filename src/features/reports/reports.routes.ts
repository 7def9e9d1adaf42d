import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { sendCsv, tableReply } from '../../platform/http/csv.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { ReportListReply, ReportParams, ReportQuery, ReportReply } from './reports.schema.ts';
import type { ReportService } from './reports.service.ts';

export const reportRoutes: FastifyPluginAsyncZod<{ reports: ReportService }> = async (app, { reports }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['reports'],
        summary: 'Every report there is, with the question it answers and whether you may read it',
        response: { 200: ReportListReply, ...problemReplies },
      },
    },
    async (request) => reports.list(actorOf(request)),
  );

  app.get(
    '/:name',
    {
      schema: {
        tags: ['reports'],
        summary: 'A report over some days, with the entries behind its numbers',
        description: 'Which there are, and the question each answers: GET /reports. Reports come whole, as they are printed.',
        params: ReportParams,
        querystring: ReportQuery,
        response: { 200: tableReply(ReportReply), ...problemReplies },
      },
    },
    async (request, reply) => {
      const { from = null, to = null, format } = request.query;
      const { name } = request.params;
      const { report, csv } = reports.make(actorOf(request), name, { from, to });
      return format === 'csv' ? sendCsv(reply, name, csv()) : report;
    },
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { sendCsv, tableReply } from '../../platform/http/csv.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { reorderCsv } from './reorder-csv.ts';
import { ReorderQuery, ReorderReply } from './reorder-list.schema.ts';
import type { ReorderListService } from './reorder-list.service.ts';

export const reorderListRoutes: FastifyPluginAsyncZod<{ reorderList: ReorderListService }> = async (app, { reorderList }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'What to order, from whom, how much, and why; ?all=true also what needs no order',
        querystring: ReorderQuery,
        response: { 200: tableReply(ReorderReply), ...problemReplies },
      },
    },
    async (request, reply) => {
      const list = reorderList.show({ all: request.query.all === 'true' });
      return request.query.format === 'csv' ? sendCsv(reply, 'reorder-list', reorderCsv(list)) : list;
    },
  );
};

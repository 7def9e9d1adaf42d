import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { sendCsv, tableReply } from '../../platform/http/csv.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { AuditReply, StockQuery, StockReply } from './stock.schema.ts';
import { stockCsv, type StockService } from './stock.service.ts';

export const stockRoutes: FastifyPluginAsyncZod<{ stock: StockService }> = async (app, { stock }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'What is in the drawer: on hand, held, free, and what it is worth',
        querystring: StockQuery,
        response: { 200: tableReply(StockReply), ...problemReplies },
      },
    },
    async (request, reply) => {
      const shown = stock.show(actorOf(request));
      return request.query.format === 'csv' ? sendCsv(reply, 'stock', stockCsv(shown)) : shown;
    },
  );

  app.post(
    '/audit',
    {
      schema: {
        tags: ['stock'],
        summary: 'Add the whole ledger up again and hold it against what the stock shows; changes nothing',
        response: { 200: AuditReply, ...problemReplies },
      },
    },
    async () => stock.audit(),
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { StockParams } from './stock-fields.ts';
import { MovementQuery, MovementReply, NewMovement, Reversal } from './stock-movements.schema.ts';
import type { StockMovementService } from './stock-movements.service.ts';

export const stockMovementRoutes: FastifyPluginAsyncZod<{ stockMovements: StockMovementService; platform: Once }> = async (
  app,
  { stockMovements, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'Book by hand what was used, put back, scrapped, counted or written off',
        body: NewMovement,
        response: { 201: MovementReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => stockMovements.add(actorOf(request), request.body)),
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'The ledger, newest first; by lot, product or piece',
        querystring: MovementQuery,
        response: { 200: pageReply(MovementReply), ...problemReplies },
      },
    },
    async (request) => stockMovements.list(actorOf(request), request.query),
  );

  app.post(
    '/:id/reversals',
    {
      schema: {
        tags: ['stock'],
        summary: 'Take a wrong movement back by its opposite, once; nothing is ever edited',
        params: StockParams,
        body: Reversal,
        response: { 201: MovementReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () =>
        stockMovements.reverse(actorOf(request), request.params.id, request.body.reason),
      ),
  );
};

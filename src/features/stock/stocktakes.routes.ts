import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import { StockParams } from './stock-fields.ts';
import { NewCounts, StocktakeMove, StocktakeQuery, StocktakeReply } from './stocktakes.schema.ts';
import type { StocktakeService } from './stocktakes.service.ts';

export const stocktakeRoutes: FastifyPluginAsyncZod<{ stocktakes: StocktakeService; platform: Once }> = async (
  app,
  { stocktakes, platform },
) => {
  const tags = ['stock'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Begin a stocktake of every lot; it is counted blind',
        body: z.strictObject({}),
        response: { 201: StocktakeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const stocktake = once(platform, { request, reply, status: 201 }, () => stocktakes.begin(actorOf(request)));
      sendVersion(reply, stocktake.version);
      return stocktake;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Stocktakes, newest first',
        querystring: StocktakeQuery,
        response: { 200: pageReply(StocktakeReply), ...problemReplies },
      },
    },
    async (request) => stocktakes.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One stocktake, lot by lot',
        params: StockParams,
        response: { 200: StocktakeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const stocktake = stocktakes.get(actorOf(request), request.params.id);
      sendVersion(reply, stocktake.version);
      return stocktake;
    },
  );

  app.post(
    '/:id/counts',
    {
      schema: {
        tags,
        summary: 'Note what the scale says of some lots, less the tare; or why one is not counted',
        params: StockParams,
        body: NewCounts,
        response: { 201: StocktakeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const stocktake = once(platform, { request, reply, status: 201 }, () =>
        stocktakes.count(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, stocktake.version);
      return stocktake;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Compare a stocktake with the book, recount, post its differences, or drop it',
        description:
          'A difference over the larger of 0.05 g and 2 % of use since the count before has to be explained. Posted, it closes the time before it.',
        params: StockParams,
        body: StocktakeMove,
        response: { 200: StocktakeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const stocktake = once(platform, { request, reply, status: 200, needed: true }, () =>
        stocktakes.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, stocktake.version);
      return stocktake;
    },
  );
};

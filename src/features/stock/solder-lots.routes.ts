import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import { NewSolderLot, SolderLotMove, SolderLotQuery, SolderLotReply, WeighingReply } from './solder-lots.schema.ts';
import type { SolderLotService } from './solder-lots.service.ts';
import { StockParams, Weighing } from './stock-fields.ts';

export const solderLotRoutes: FastifyPluginAsyncZod<{ solderLots: SolderLotService; platform: Once }> = async (
  app,
  { solderLots, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'Receive a lot; without a mark, or where cadmium is not ruled out, it is held back',
        body: NewSolderLot,
        response: { 201: SolderLotReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const lot = once(platform, { request, reply, status: 201 }, () => solderLots.receive(actorOf(request), request.body));
      sendVersion(reply, lot.version);
      return lot;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'Lots, newest first; by product or state',
        querystring: SolderLotQuery,
        response: { 200: pageReply(SolderLotReply), ...problemReplies },
      },
    },
    async (request) => solderLots.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['stock'],
        summary: 'One lot, and what is in it now',
        params: StockParams,
        response: { 200: SolderLotReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const lot = solderLots.get(actorOf(request), request.params.id);
      sendVersion(reply, lot.version);
      return lot;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags: ['stock'],
        summary: 'Open a lot, hold it back, finish it, write it off',
        description:
          'A held-back lot is opened with a reason; sheet and wire need their mark first, and where cadmium is unknown the document that rules it out. Finishing takes less than 0.05 g on hand. What is left of a finished or written-off lot leaves the book with it.',
        params: StockParams,
        body: SolderLotMove,
        response: { 200: SolderLotReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const lot = once(platform, { request, reply, status: 200, needed: true }, () =>
        solderLots.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, lot.version);
      return lot;
    },
  );

  app.post(
    '/:id/weighings',
    {
      schema: {
        tags: ['stock'],
        summary: 'Weigh a lot: the book follows the scale',
        params: StockParams,
        body: Weighing,
        response: { 201: WeighingReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => solderLots.weigh(actorOf(request), request.params.id, request.body)),
  );
};

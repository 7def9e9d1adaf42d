import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import {
  MetalLotQuery,
  MetalLotReply,
  MetalMovementQuery,
  MetalMovementReply,
  MetalWeighingReply,
  NewMetalLot,
  NewMetalMovement,
} from './metal-lots.schema.ts';
import type { MetalLotService } from './metal-lots.service.ts';
import type { MetalMovementService } from './metal-movements.service.ts';
import { StockParams, Weighing } from './stock-fields.ts';
import { Reversal } from './stock-movements.schema.ts';

const tags = ['stock'];

export const metalLotRoutes: FastifyPluginAsyncZod<{ metalLots: MetalLotService; platform: Once }> = async (
  app,
  { metalLots, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Receive metal, weighed or measured; what a client left is kept apart',
        body: NewMetalLot,
        response: { 201: MetalLotReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const lot = once(platform, { request, reply, status: 201 }, () => metalLots.receive(actorOf(request), request.body));
      sendVersion(reply, lot.version);
      return lot;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Lots of metal, newest first; by product, or those left for a commission',
        querystring: MetalLotQuery,
        response: { 200: pageReply(MetalLotReply), ...problemReplies },
      },
    },
    async (request) => metalLots.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    { schema: { tags, summary: 'One lot of metal', params: StockParams, response: { 200: MetalLotReply, ...problemReplies } } },
    async (request, reply) => {
      const lot = metalLots.get(actorOf(request), request.params.id);
      sendVersion(reply, lot.version);
      return lot;
    },
  );

  app.post(
    '/:id/weighings',
    {
      schema: {
        tags,
        summary: 'Weigh a lot of metal: the book follows the scale',
        params: StockParams,
        body: Weighing,
        response: { 201: MetalWeighingReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => metalLots.weigh(actorOf(request), request.params.id, request.body)),
  );
};

export const metalMovementRoutes: FastifyPluginAsyncZod<{ metalMovements: MetalMovementService; platform: Once }> = async (
  app,
  { metalMovements, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Issue metal to a piece, put it back, scrap offcuts, count or write off',
        body: NewMetalMovement,
        response: { 201: MetalMovementReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => metalMovements.add(actorOf(request), request.body)),
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'The ledger of metal, newest first; by lot or piece',
        querystring: MetalMovementQuery,
        response: { 200: pageReply(MetalMovementReply), ...problemReplies },
      },
    },
    async (request) => metalMovements.list(request.query),
  );

  app.post(
    '/:id/reversals',
    {
      schema: {
        tags,
        summary: 'Take a wrong movement of metal back by its opposite, once',
        params: StockParams,
        body: Reversal,
        response: { 201: MetalMovementReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () =>
        metalMovements.reverse(actorOf(request), request.params.id, request.body.reason),
      ),
  );
};

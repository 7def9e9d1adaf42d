import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import {
  Measure,
  MeasureReply,
  MetalProductChange,
  MetalProductQuery,
  MetalProductReply,
  NewMetalProduct,
} from './metal-products.schema.ts';
import type { MetalProductService } from './metal-products.service.ts';
import { StockParams } from './stock-fields.ts';

export const metalProductRoutes: FastifyPluginAsyncZod<{ metalProducts: MetalProductService; platform: Once }> = async (
  app,
  { metalProducts, platform },
) => {
  const tags = ['stock'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Add sheet, strip, wire, tube or grain that the studio buys',
        body: NewMetalProduct,
        response: { 201: MetalProductReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const product = once(platform, { request, reply, status: 201 }, () => metalProducts.add(actorOf(request), request.body));
      sendVersion(reply, product.version);
      return product;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Metal that is bought, newest first; by metal, in use or not',
        querystring: MetalProductQuery,
        response: { 200: pageReply(MetalProductReply), ...problemReplies },
      },
    },
    async (request) => metalProducts.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One metal product',
        params: StockParams,
        response: { 200: MetalProductReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const product = metalProducts.get(actorOf(request), request.params.id);
      sendVersion(reply, product.version);
      return product;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => metalProducts.stored(id) },
      schema: {
        tags,
        summary: 'Change a metal product; its metal and sizes stand, another size is another product',
        params: StockParams,
        body: MetalProductChange,
        response: { 200: MetalProductReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const product = metalProducts.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, product.version);
      return product;
    },
  );

  app.post(
    '/:id/measure',
    {
      schema: {
        tags,
        summary: 'What a length of it weighs, or how long a weight of it is; nothing is stored',
        params: StockParams,
        body: Measure,
        response: { 200: MeasureReply, ...problemReplies },
      },
    },
    async (request) => metalProducts.measure(request.params.id, request.body),
  );
};

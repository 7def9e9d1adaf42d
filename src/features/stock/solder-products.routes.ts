import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { NewSolderProduct, SolderProductChange, SolderProductQuery, SolderProductReply } from './solder-products.schema.ts';
import type { SolderProductService } from './solder-products.service.ts';
import { StockParams } from './stock-fields.ts';

export const solderProductRoutes: FastifyPluginAsyncZod<{ solderProducts: SolderProductService; platform: Once }> = async (
  app,
  { solderProducts, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'Add a solder with its own two temperatures',
        description:
          'As its packet has it: its own solidus and liquidus, its share of silver. While it is active and free of cadmium and lead, plans and searches of every piece are offered it by its code; the grades of GET /solder-grades are there to compare with, and are not.',
        body: NewSolderProduct,
        response: { 201: SolderProductReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const product = once(platform, { request, reply, status: 201 }, () => solderProducts.add(actorOf(request), request.body));
      sendVersion(reply, product.version);
      return product;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['stock'],
        summary: 'Solders, newest first; by form, supplier, code, in use or not',
        querystring: SolderProductQuery,
        response: { 200: pageReply(SolderProductReply), ...problemReplies },
      },
    },
    async (request) => solderProducts.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['stock'],
        summary: 'One solder',
        params: StockParams,
        response: { 200: SolderProductReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const product = solderProducts.get(actorOf(request), request.params.id);
      sendVersion(reply, product.version);
      return product;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => solderProducts.stored(id) },
      schema: {
        tags: ['stock'],
        summary: 'Change a solder; cadmium becomes no only by a document',
        params: StockParams,
        body: SolderProductChange,
        response: { 200: SolderProductReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const product = solderProducts.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, product.version);
      return product;
    },
  );
};

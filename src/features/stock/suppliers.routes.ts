import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { StockParams } from './stock-fields.ts';
import { NewSupplier, SupplierChange, SupplierQuery, SupplierReply } from './suppliers.schema.ts';
import type { SupplierService } from './suppliers.service.ts';

export const supplierRoutes: FastifyPluginAsyncZod<{ suppliers: SupplierService }> = async (app, { suppliers }) => {
  const tags = ['stock'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Note a supplier: minimum, post, working days from order to delivery',
        body: NewSupplier,
        response: { 201: SupplierReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const supplier = suppliers.add(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, supplier.version);
      return supplier;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Suppliers, newest first',
        querystring: SupplierQuery,
        response: { 200: pageReply(SupplierReply), ...problemReplies },
      },
    },
    async (request) => suppliers.list(request.query),
  );

  app.get(
    '/:id',
    { schema: { tags, summary: 'One supplier', params: StockParams, response: { 200: SupplierReply, ...problemReplies } } },
    async (request, reply) => {
      const supplier = suppliers.get(request.params.id);
      sendVersion(reply, supplier.version);
      return supplier;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => suppliers.get(id) },
      schema: {
        tags,
        summary: 'Change a supplier; its products follow a new name',
        params: StockParams,
        body: SupplierChange,
        response: { 200: SupplierReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const supplier = suppliers.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, supplier.version);
      return supplier;
    },
  );
};

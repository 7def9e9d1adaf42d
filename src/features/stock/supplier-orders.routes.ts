import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { StockParams } from './stock-fields.ts';
import {
  DeliveryReply,
  NewDelivery,
  NewSupplierOrder,
  SupplierOrderChange,
  SupplierOrderMove,
  SupplierOrderQuery,
  SupplierOrderReply,
} from './supplier-orders.schema.ts';
import type { SupplierOrderService } from './supplier-orders.service.ts';

export const supplierOrderRoutes: FastifyPluginAsyncZod<{ supplierOrders: SupplierOrderService; platform: Once }> = async (
  app,
  { supplierOrders, platform },
) => {
  const tags = ['stock'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Write an order to a supplier down; the reorder list has one ready to post',
        body: NewSupplierOrder,
        response: { 201: SupplierOrderReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const order = once(platform, { request, reply, status: 201 }, () => supplierOrders.add(actorOf(request), request.body));
      sendVersion(reply, order.version);
      return order;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Orders, newest first; by supplier or state',
        querystring: SupplierOrderQuery,
        response: { 200: pageReply(SupplierOrderReply), ...problemReplies },
      },
    },
    async (request) => supplierOrders.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    { schema: { tags, summary: 'One order', params: StockParams, response: { 200: SupplierOrderReply, ...problemReplies } } },
    async (request, reply) => {
      const order = supplierOrders.get(actorOf(request), request.params.id);
      sendVersion(reply, order.version);
      return order;
    },
  );

  app.patch(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Change the lines of an order that is not sent, or the day that was promised',
        params: StockParams,
        body: SupplierOrderChange,
        response: { 200: SupplierOrderReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const order = supplierOrders.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, order.version);
      return order;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Send an order, note the promise, close it, hold it against its invoice',
        description:
          'Under the supplier’s minimum the owner sends it with a reason. An invoice that differs by more than 0.05 from what came is explained.',
        params: StockParams,
        body: SupplierOrderMove,
        response: { 200: SupplierOrderReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const order = once(platform, { request, reply, status: 200, needed: true }, () =>
        supplierOrders.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, order.version);
      return order;
    },
  );

  app.post(
    '/:id/deliveries',
    {
      schema: {
        tags,
        summary: 'Book what came of an order: a lot for each line, in part or all of it',
        params: StockParams,
        body: NewDelivery,
        response: { 201: DeliveryReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () =>
        supplierOrders.deliver(actorOf(request), request.params.id, request.body),
      ),
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import { NewPayment, NewPaymentReply, PaymentMove, PaymentParams, PaymentQuery, PaymentReply } from './payments.schema.ts';
import type { PaymentService } from './payments.service.ts';

export const paymentRoutes: FastifyPluginAsyncZod<{ payments: PaymentService; platform: Once }> = async (
  app,
  { payments, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['payments'],
        summary: 'Note money taken in, sent back, or asked for',
        body: NewPayment,
        response: { 201: NewPaymentReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const payment = once(platform, { request, reply, status: 201 }, () => payments.add(actorOf(request), request.body));
      sendVersion(reply, payment.version);
      return payment;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['payments'],
        summary: 'Payments, newest first; of one commission, in one state',
        querystring: PaymentQuery,
        response: { 200: pageReply(PaymentReply), ...problemReplies },
      },
    },
    async (request) => payments.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['payments'],
        summary: 'One payment',
        params: PaymentParams,
        response: { 200: PaymentReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const payment = payments.get(actorOf(request), request.params.id);
      sendVersion(reply, payment.version);
      return payment;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags: ['payments'],
        summary: 'Money that was due is received, or goes back in part or whole',
        description: 'What goes back is an entry of its own that belongs to this one; nothing that was received is changed.',
        params: PaymentParams,
        body: PaymentMove,
        response: { 200: NewPaymentReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const payment = once(platform, { request, reply, status: 200, needed: true }, () =>
        payments.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, payment.version);
      return payment;
    },
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { NewPayment, NewPaymentReply, PaymentQuery, PaymentReply } from './payments.schema.ts';
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
        summary: 'Note money taken in, or sent back',
        body: NewPayment,
        response: { 201: NewPaymentReply, ...problemReplies },
      },
    },
    async (request, reply) => once(platform, { request, reply, status: 201 }, () => payments.add(actorOf(request), request.body)),
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['payments'],
        summary: 'Payments, newest first; of one commission',
        querystring: PaymentQuery,
        response: { 200: pageReply(PaymentReply), ...problemReplies },
      },
    },
    async (request) => payments.list(request.query),
  );
};

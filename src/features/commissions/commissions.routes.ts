import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import {
  CancellationReply,
  CommissionChange,
  CommissionMove,
  CommissionParams,
  CommissionQuery,
  CommissionReply,
  CommissionSummary,
  NewCommission,
} from './commissions.schema.ts';
import type { CommissionService } from './commissions.service.ts';

export const commissionRoutes: FastifyPluginAsyncZod<{ commissions: CommissionService; platform: Once }> = async (
  app,
  { commissions, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['commissions'],
        summary: 'Note an enquiry: what, for whom, by when',
        body: NewCommission,
        response: { 201: CommissionReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const commission = once(platform, { request, reply, status: 201 }, () => commissions.add(actorOf(request), request.body));
      sendVersion(reply, commission.version);
      return commission;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['commissions'],
        summary: 'Commissions, newest first; by state, client or kind',
        querystring: CommissionQuery,
        response: { 200: pageReply(CommissionSummary), ...problemReplies },
      },
    },
    async (request) => commissions.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['commissions'],
        summary: 'One commission with its pieces, quotes and what is paid and owed',
        params: CommissionParams,
        response: { 200: CommissionReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const commission = commissions.get(actorOf(request), request.params.id);
      sendVersion(reply, commission.version);
      return commission;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => commissions.stored(id) },
      schema: {
        tags: ['commissions'],
        summary: 'Change a commission; once agreed, its due date changes only with a reason',
        params: CommissionParams,
        body: CommissionChange,
        response: { 200: CommissionReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const commission = commissions.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, commission.version);
      return commission;
    },
  );

  app.get(
    '/:id/cancellation-statement',
    {
      schema: {
        tags: ['commissions'],
        summary: 'What was spent and what is left of the money received, before a commission is called off or after',
        params: CommissionParams,
        response: { 200: CancellationReply, ...problemReplies },
      },
    },
    async (request) => commissions.cancellation(request.params.id),
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags: ['commissions'],
        summary: 'Move a commission along its life cycle',
        description:
          'Agreed holds the solder of every piece; called off frees it and answers what was spent. A repair goes from shaping to agreed at once ("accept now"): its version is written, sent and accepted in the same step.',
        params: CommissionParams,
        body: CommissionMove,
        response: { 200: CommissionReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const commission = once(platform, { request, reply, status: 200, needed: true }, () =>
        commissions.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, commission.version);
      return commission;
    },
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { FactorQuery, FactorReply, NewLearnedFactor, OffersReply } from './learning.schema.ts';
import type { LearningService } from './learning.service.ts';

export const learningRoutes: FastifyPluginAsyncZod<{ learning: LearningService; platform: Once }> = async (
  app,
  { learning, platform },
) => {
  const tags = ['learning'];

  app.get(
    '/offers',
    {
      schema: {
        tags,
        summary: 'What the studio’s own times say of each operation, with what it comes from',
        response: { 200: OffersReply, ...problemReplies },
      },
    },
    async () => learning.offers(),
  );

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Accept a factor that is offered',
        description: 'Prices made from then on use it; those that were made stay as they are.',
        body: NewLearnedFactor,
        response: { 201: FactorReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => learning.accept(actorOf(request), request.body)),
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Factors that were accepted, newest first',
        querystring: FactorQuery,
        response: { 200: pageReply(FactorReply), ...problemReplies },
      },
    },
    async (request) => learning.list(request.query),
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { ClientLetterQuery, ClientLetterReply, NewClientLetter } from './client-letters.schema.ts';
import type { ClientLetterService } from './client-letters.service.ts';

export const clientLetterRoutes: FastifyPluginAsyncZod<{ letters: ClientLetterService; platform: Once }> = async (
  app,
  { letters, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['documents'],
        summary: 'Note that a client was written to, or told, and what about',
        body: NewClientLetter,
        response: { 201: ClientLetterReply, ...problemReplies },
      },
    },
    async (request, reply) => once(platform, { request, reply, status: 201 }, () => letters.add(actorOf(request), request.body)),
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['documents'],
        summary: 'What clients were written and told, newest first; of one commission',
        querystring: ClientLetterQuery,
        response: { 200: pageReply(ClientLetterReply), ...problemReplies },
      },
    },
    async (request) => letters.list(request.query),
  );
};

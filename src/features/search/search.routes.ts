import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { SearchQuery, SearchReply } from './search.schema.ts';
import type { SearchService } from './search.service.ts';

export const searchRoutes: FastifyPluginAsyncZod<{ search: SearchService }> = async (app, { search }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['search'],
        summary: 'Find clients, commissions, pieces, solders, lots, metals and suppliers by a part of their words or numbers',
        querystring: SearchQuery,
        response: { 200: SearchReply, ...problemReplies },
      },
    },
    async (request) => search.find(actorOf(request), request.query),
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { Platform } from '../../platform/platform.ts';
import { dueDateAnswer } from './due-date.ts';
import { DueDateQuery, DueDateReply } from './due-date.schema.ts';

export const dueDateRoutes: FastifyPluginAsyncZod<{ platform: Platform }> = async (app, { platform }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['reports'],
        summary: 'Can we do it by then? A date, the minutes to spare, and whom it would make late',
        querystring: DueDateQuery,
        response: { 200: DueDateReply, ...problemReplies },
      },
    },
    async (request) => dueDateAnswer(platform.db, request.query, platform.clock.now()),
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { Platform } from '../../platform/platform.ts';
import { FIRST_STEPS, firstSteps } from './first-steps.service.ts';

const FirstStepsReply = z.object({
  shown: z.boolean().describe('Whether the studio still wants to be told of them: the setting firstSteps.'),
  steps: z.array(z.object({ step: z.enum(FIRST_STEPS), done: z.boolean() })),
});

export const firstStepRoutes: FastifyPluginAsyncZod<{ platform: Platform }> = async (app, { platform }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['settings'],
        summary: 'What a new studio does first, and what of it is done',
        response: { 200: FirstStepsReply, ...problemReplies },
      },
    },
    async () => firstSteps(platform.db),
  );
};

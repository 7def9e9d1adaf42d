import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { CAUTIONS, DEFERRAL } from '../../../shared/cautions/caution-table.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';

const CautionsReply = z.object({
  cautions: z.array(
    z.object({
      id: z.string(),
      when: z.string(),
      shownAt: z
        .array(z.enum(['heat', 'bath', 'list']))
        .describe('At the heat and on the bench sheet; at the bath; in this list alone.'),
      words: z.string(),
      tick: z.enum(['each_time', 'once_a_day', 'once_a_person', 'blocks']),
    }),
  ),
  deferral: z.string(),
});

export const cautionRoutes: FastifyPluginAsyncZod = async (app) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['cautions'],
        summary: 'The cautions shown at hazardous steps, and how often each is read; they cannot be switched off',
        response: { 200: CautionsReply, ...problemReplies },
      },
    },
    async () => ({ cautions: CAUTIONS.map((caution) => ({ ...caution, shownAt: [...caution.shownAt] })), deferral: DEFERRAL }),
  );
};

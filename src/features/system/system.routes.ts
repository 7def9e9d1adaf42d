import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { sql } from 'drizzle-orm';
import { z } from 'zod';
import type { Platform } from '../../platform/platform.ts';
import { PROBLEMS, notFound, type ProblemSlug } from '../../platform/http/problem.ts';
import { METRICS_TYPE } from '../../platform/http/metrics.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { PROBLEM_WORDS } from './problem-words.ts';

export const healthRoutes: FastifyPluginAsyncZod<{ platform: Platform; ownerMissing: () => boolean }> = async (
  app,
  { platform, ownerMissing },
) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['system'],
        summary: 'Whether the server answers and the book can be read',
        response: { 200: z.object({ status: z.literal('ok'), ownerMissing: z.boolean() }), ...problemReplies },
      },
    },
    async () => {
      platform.db.get(sql`SELECT 1`);
      return { status: 'ok' as const, ownerMissing: ownerMissing() };
    },
  );
};

export const problemRoutes: FastifyPluginAsyncZod = async (app) => {
  app.get(
    '/:slug',
    {
      schema: {
        tags: ['system'],
        summary: 'What a problem means and what to do about it',
        params: z.strictObject({ slug: z.string() }),
        response: {
          200: z.object({ type: z.string(), title: z.string(), status: z.number().int(), meaning: z.string() }),
          ...problemReplies,
        },
      },
    },
    async (request) => {
      const { slug } = request.params;
      if (!isSlug(slug)) throw notFound('problem', slug);
      return { type: `/api/v1/problems/${slug}`, ...PROBLEMS[slug], meaning: PROBLEM_WORDS[slug] };
    },
  );
};

/** Numbers for a program that watches servers; a token of the owner's opens them. */
export const metricsRoutes: FastifyPluginAsyncZod<{ metrics: () => Promise<string> }> = async (app, { metrics }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['system'],
        summary: 'How often and how fast each route answers, what the process uses, how large the book is: OpenMetrics 1.0 text',
        response: {
          200: { description: 'Figures', content: { 'application/openmetrics-text': { schema: z.string() } } },
          ...problemReplies,
        },
      },
    },
    async (_request, reply) => reply.type(METRICS_TYPE).send(await metrics()),
  );
};

function isSlug(slug: string): slug is ProblemSlug {
  return Object.hasOwn(PROBLEMS, slug);
}

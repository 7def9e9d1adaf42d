import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { MonthLockService } from './month-locks.service.ts';

const NewMonthLock = z.strictObject({
  month: z
    .string()
    .regex(/^\d{4}-(0[1-9]|1[0-2])$/, 'Write the month as year and month, such as "2031-05".')
    .describe('A month that is over, in the studio’s zone, such as 2031-05.'),
});

const MonthLockReply = z.object({
  id: z.string(),
  month: z.string(),
  personId: z.string().nullable().describe('Who closed it; null: the clock did.'),
  createdAt: z.string(),
});

export const monthLockRoutes: FastifyPluginAsyncZod<{ monthLocks: MonthLockService; platform: Once }> = async (
  app,
  { monthLocks, platform },
) => {
  const tags = ['bench-times'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Close a month: its agreed times are locked',
        description:
          'The clock closes it by itself some days after its end (settings, monthLockDays). Afterwards times are corrected by others.',
        body: NewMonthLock,
        response: { 201: MonthLockReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => monthLocks.add(actorOf(request), request.body.month)),
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Closed months, newest first',
        querystring: PageQuery,
        response: { 200: pageReply(MonthLockReply), ...problemReplies },
      },
    },
    async (request) => monthLocks.list(request.query),
  );
};

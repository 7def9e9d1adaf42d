import { and, desc, eq, lt } from 'drizzle-orm';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { journal, people } from '../../platform/db/tables.ts';
import type { Platform } from '../../platform/platform.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';

const JournalQuery = z.strictObject({
  limit: z.coerce.number().int().min(1).max(200).default(50),
  cursor: z.coerce.number().int().optional(),
  thingId: z.string().optional(),
  what: z.string().optional(),
});

const JournalLine = z.object({
  seq: z.number().int(),
  at: z.string(),
  person: z.string().nullable(),
  deviceId: z.string().nullable(),
  what: z.string(),
  thingId: z.string(),
  before: z.unknown(),
  after: z.unknown(),
  confirmed: z.object({ pointers: z.array(z.string()), reason: z.string() }).nullable(),
});

export const journalRoutes: FastifyPluginAsyncZod<{ platform: Platform }> = async (app, { platform: { db } }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['system'],
        summary: 'Who wrote what and when, newest first; nothing is ever taken out',
        querystring: JournalQuery,
        response: { 200: z.object({ items: z.array(JournalLine), nextCursor: z.string().nullable() }), ...problemReplies },
      },
    },
    async (request) => {
      const { limit, cursor, thingId, what } = request.query;
      const rows = db
        .select({ line: journal, person: people.name })
        .from(journal)
        .leftJoin(people, eq(people.id, journal.personId))
        .where(
          and(
            cursor === undefined ? undefined : lt(journal.seq, cursor),
            thingId === undefined ? undefined : eq(journal.thingId, thingId),
            what === undefined ? undefined : eq(journal.what, what),
          ),
        )
        .orderBy(desc(journal.seq))
        .limit(limit + 1)
        .all();
      const items = rows.slice(0, limit).map(({ line: { personId: _id, ...line }, person }) => ({ ...line, person }));
      return { items, nextCursor: rows.length > limit ? String(items.at(-1)!.seq) : null };
    },
  );
};

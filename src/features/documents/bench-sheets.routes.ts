import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { originOf } from '../../platform/http/origin-of.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { Platform } from '../../platform/platform.ts';
import { benchSheet, studentSheet } from './bench-sheets.ts';
import { PaperQuery, paperReply, sendPaper } from './send-paper.ts';

const SHEETS = [
  {
    path: '/bench-sheets/:id',
    sheet: benchSheet,
    summary: 'A plan to take to the bench: heat by heat, large enough to read at the fire',
    says: 'With the drawing and its numbers, what is predicted of every earlier joint, and the cautions.',
  },
  {
    path: '/student-sheets/:id',
    sheet: studentSheet,
    summary: 'A plan for a student to guess by, with room to write what every earlier joint does',
    says: 'Nothing on it tells the answer.',
  },
] as const;

/** Papers for the bench, in the language of who asks. */
export const benchSheetRoutes: FastifyPluginAsyncZod<{ platform: Platform }> = async (app, { platform: { db, clock } }) => {
  for (const { path, sheet, summary, says } of SHEETS) {
    app.get(
      path,
      {
        schema: {
          tags: ['documents'],
          summary,
          description: `Of a plan that is checked. ${says} Black on white, on the paper of the settings, in the language of the one who asks.`,
          params: z.strictObject({ id: z.uuid() }),
          querystring: PaperQuery,
          response: { 200: paperReply, ...problemReplies },
        },
      },
      async (request, reply) => {
        const asked = { actor: actorOf(request), planId: request.params.id, at: clock.now(), origin: originOf(request) };
        return sendPaper(reply, sheet(db, asked), request.query.format);
      },
    );
  }
};

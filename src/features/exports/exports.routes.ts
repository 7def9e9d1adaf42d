import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { goneSignal } from '../../platform/http/gone.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { ExportService } from './exports.service.ts';

const zipReply = {
  description: 'A zip, packed as it is sent',
  content: { 'application/zip': { schema: z.unknown().meta({ type: 'string', format: 'binary' }) } },
};

export const exportRoutes: FastifyPluginAsyncZod<{ exports: ExportService }> = async (app, { exports }) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['imports'],
        summary: 'Everything in the book, as a zip of JSON and CSV',
        description:
          'Every table at one moment, as JSON and as CSV with units in its headers, pictures and data sheets as files; README.txt in it says how to read it, manifest.json tells it to a program. Passwords, PINs, tokens and what opens private links are not in it. The journal notes who took it.',
        response: { 200: zipReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const { zip, day } = await exports.everything(actorOf(request), goneSignal(reply));
      reply
        .type('application/zip')
        .header('content-disposition', `attachment; filename="hearthbook-${day}.zip"`)
        .header('cache-control', 'no-store');
      return reply.send(zip);
    },
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { HeatMove, HeatParams, HeatQuerySchema, HeatReply } from './heats.schema.ts';
import type { HeatService } from './heats.service.ts';

interface Needs {
  platform: Platform;
  heats: HeatService;
}

export const heatRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, heats }) => {
  const tags = ['heats'];

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Heats, newest first',
        querystring: HeatQuerySchema,
        response: { 200: pageReply(HeatReply), ...problemReplies },
      },
    },
    async (request) => heats.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One heat: what to do, with what, what to expect, what to mind',
        params: HeatParams,
        response: { 200: HeatReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const heat = heats.get(actorOf(request), request.params.id);
      sendVersion(reply, heat.version);
      return heat;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'One step of a heat: primed, alight, cooling, in the pickle, looking, cleared or spoilt',
        description:
          'Cleared: its joints are sound and the solder is booked. Spoilt: an incident is opened, the piece is hurt, the solder really used is booked and later heats wait. Solder that holds cadmium or may hold it blocks the heat for everyone.',
        params: HeatParams,
        body: HeatMove,
        response: { 200: HeatReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const heat = once(platform, { request, reply, status: 200, needed: true }, () =>
        heats.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, heat.version);
      return heat;
    },
  );
};

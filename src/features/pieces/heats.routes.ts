import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { TutorsYes } from './guesses.schema.ts';
import { HeatMove, HeatParams, HeatQuerySchema, HeatReply, HeatSighting } from './heats.schema.ts';
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
    '/:id/tutors-yes',
    {
      schema: {
        tags,
        summary: 'A tutor says yes to a heat for a student, or takes it back',
        description:
          'Without it a student neither readies nor lights the heat. The student has guessed first what its earlier joints will do. Said again, it changes nothing.',
        params: HeatParams,
        body: TutorsYes,
        response: { 200: HeatReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const heat = heats.sayTutorsYes(actorOf(request), request.params.id, request.body);
      sendVersion(reply, heat.version);
      return heat;
    },
  );

  app.post(
    '/:id/sightings',
    {
      schema: {
        tags,
        summary: 'One tap when the flux clears, one when the solder flows',
        description:
          'Kept as seconds since the heat was lit; they calibrate the torch in the hands of who lit it. A second tap of a kind changes nothing; the move to cooling may say the times anew.',
        params: HeatParams,
        body: HeatSighting,
        response: { 200: HeatReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const heat = heats.see(actorOf(request), request.params.id, request.body);
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

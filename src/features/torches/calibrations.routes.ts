import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import type { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { goneSignal } from '../../platform/http/gone.ts';
import { answerKept, once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { CalibrationList, CalibrationQuery, CalibrationReply, NewCalibration } from './calibrations.schema.ts';
import type { CalibrationService } from './calibrations.service.ts';
import { TorchParams } from './torches.schema.ts';

interface Needs {
  platform: Platform;
  calibrations: CalibrationService;
}

export const calibrationRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, calibrations }) => {
  const tags = ['torches'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Calibrate a torch in one’s own hands from observed heats',
        description:
          'From heats of the book whose times were noted when they went to cooling, from others, from strips with two chips. Kept for this person and torch: every later check and search goes by the newest, with a smaller uncertainty. Refused when the observations cannot tell the power.',
        body: NewCalibration,
        response: { 201: CalibrationReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const kept = answerKept(platform.db, { request, reply });
      if (kept !== undefined) return kept as z.infer<typeof CalibrationReply>;
      const fitted = await calibrations.fit(actorOf(request), request.body, goneSignal(reply));
      const calibration = once(platform, { request, reply, status: 201 }, () => calibrations.keep(actorOf(request), fitted));
      sendVersion(reply, calibration.version);
      return calibration;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Calibrations, newest first; by torch, by person',
        querystring: CalibrationQuery,
        response: { 200: pageReply(CalibrationList), ...problemReplies },
      },
    },
    async (request) => calibrations.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One calibration, with what it was fitted to',
        params: TorchParams,
        response: { 200: CalibrationReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const calibration = calibrations.get(actorOf(request), request.params.id);
      sendVersion(reply, calibration.version);
      return calibration;
    },
  );
};

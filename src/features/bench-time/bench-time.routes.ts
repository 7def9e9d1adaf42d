import type { FastifyRequest } from 'fastify';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import {
  BenchTimeChange,
  BenchTimeMove,
  BenchTimeParams,
  BenchTimeQuery,
  BenchTimeReply,
  CurrentReply,
  DaysQuery,
  DaysReply,
  NewBenchTime,
  NewBenchTimeReply,
  NewCorrection,
} from './bench-time.schema.ts';
import type { BenchTimeService } from './bench-time.service.ts';

export const benchTimeRoutes: FastifyPluginAsyncZod<{ benchTimes: BenchTimeService; platform: Once }> = async (
  app,
  { benchTimes, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['bench-times'],
        summary: 'Start a timer, or note work that is over',
        description:
          'One timer runs for a person: starting another stops the first at that second and says so. Work that is over is given by startedAt and stoppedAt, or by minutesByHand.',
        body: NewBenchTime,
        response: { 201: NewBenchTimeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const time = once(platform, { request, reply, status: 201 }, () => benchTimes.add(actorOf(request), request.body));
      sendVersion(reply, time.version);
      return time;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['bench-times'],
        summary: 'One’s own times, newest first; the owner sees everybody’s',
        querystring: BenchTimeQuery,
        response: { 200: pageReply(BenchTimeReply), ...problemReplies },
      },
    },
    async (request) => benchTimes.list(actorOf(request), request.query),
  );

  app.get(
    '/current',
    {
      schema: {
        tags: ['bench-times'],
        summary: 'The timer that runs now, and those that were forgotten',
        response: { 200: CurrentReply, ...problemReplies },
      },
    },
    async (request) => benchTimes.current(actorOf(request)),
  );

  app.get(
    '/days',
    {
      schema: {
        tags: ['bench-times'],
        summary: 'One’s own minutes, day by day',
        querystring: DaysQuery,
        response: { 200: DaysReply, ...problemReplies },
      },
    },
    async (request) => benchTimes.days(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['bench-times'],
        summary: 'One time',
        params: BenchTimeParams,
        response: { 200: BenchTimeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const time = benchTimes.get(actorOf(request), request.params.id);
      sendVersion(reply, time.version);
      return time;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }, request: FastifyRequest) => benchTimes.stored(actorOf(request), id) },
      schema: {
        tags: ['bench-times'],
        summary: 'Mend a time: cut it, or say what was done',
        params: BenchTimeParams,
        body: BenchTimeChange,
        response: { 200: BenchTimeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const time = benchTimes.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, time.version);
      return time;
    },
  );

  app.post(
    '/:id/corrections',
    {
      schema: {
        tags: ['bench-times'],
        summary: 'Correct a time of a closed month, with the reason',
        description: 'The time stays as it is; the correction is a time of today, of more or fewer minutes.',
        params: BenchTimeParams,
        body: NewCorrection,
        response: { 201: BenchTimeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const time = once(platform, { request, reply, status: 201 }, () =>
        benchTimes.correct(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, time.version);
      return time;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags: ['bench-times'],
        summary: 'Stop a timer, or agree to a time',
        params: BenchTimeParams,
        body: BenchTimeMove,
        response: { 200: BenchTimeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const time = once(platform, { request, reply, status: 200, needed: true }, () =>
        benchTimes.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, time.version);
      return time;
    },
  );
};

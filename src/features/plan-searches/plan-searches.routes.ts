import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { openEventStream } from '../../platform/http/event-stream.ts';
import { once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { PlanReply } from '../pieces/index.ts';
import {
  NewPlanSearch,
  PlanSearchListed,
  PlanSearchMove,
  PlanSearchParams,
  PlanSearchQuery,
  PlanSearchWhole,
} from './plan-searches.schema.ts';
import type { PlanSearchService } from './plan-searches.service.ts';

interface Needs {
  platform: Platform;
  planSearches: PlanSearchService;
}

/** The id of the last event: who has seen it needs no more. */
const LAST = 'end';

export const planSearchRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, planSearches }) => {
  const tags = ['plans'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Look for a plan, and read the answer later',
        description:
          'It is written down and takes its turn: one at a time of each person, three more may wait. Follow it at /events, read it here, keep what it found with /plans. A search runs by work units, so that the same request has the same plan; timeMs is a safety net, and the answer says when it was that which ended it.',
        body: NewPlanSearch,
        response: { 202: PlanSearchWhole, ...problemReplies },
      },
    },
    async (request, reply) => {
      const asked = once(platform, { request, reply, status: 202 }, () => planSearches.ask(actorOf(request), request.body));
      planSearches.begin(asked.id);
      reply.header('location', `/api/v1/plan-searches/${asked.id}`);
      sendVersion(reply, asked.version);
      return asked;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Searches for plans, newest first',
        querystring: PlanSearchQuery,
        response: { 200: pageReply(PlanSearchListed), ...problemReplies },
      },
    },
    async (request) => planSearches.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One search: how far it is, and what it found',
        params: PlanSearchParams,
        response: { 200: PlanSearchWhole, ...problemReplies },
      },
    },
    async (request, reply) => {
      const search = planSearches.get(actorOf(request), request.params.id);
      sendVersion(reply, search.version);
      return search;
    },
  );

  app.get(
    '/:id/events',
    {
      schema: {
        tags,
        summary: 'Follow a search while it runs',
        description:
          'Server-sent events (WHATWG HTML, 9.2). "progress": state and progress, each time it has come further. "end": the whole search as GET /plan-searches/{id} has it, then the stream closes; who sends that last id in Last-Event-ID gets 204 and need not come again. A comment every 15 seconds keeps the line open.',
        params: PlanSearchParams,
        response: {
          200: { description: 'Events', content: { 'text/event-stream': { schema: z.string() } } },
          204: z.null().describe('All has been told.'),
          ...problemReplies,
        },
      },
    },
    async (request, reply) => {
      const [actor, { id }] = [actorOf(request), request.params];
      const seen = request.headers['last-event-id'];
      const search = planSearches.get(actor, id);
      if (seen === LAST && search.endedAt !== null) return reply.code(204).send(null);
      const stream = openEventStream(reply);
      const sayEnd = () => stream.end({ event: 'end', id: LAST, data: planSearches.get(actor, id) });
      const sayProgress = (told: number) => {
        const { state, progress } = planSearches.get(actor, id);
        stream.send({ event: 'progress', id: String(told), data: { state, progress } });
      };
      const followed = planSearches.follow(actor, id, { onProgress: sayProgress, onEnd: sayEnd });
      if (!followed) sayEnd();
      else {
        stream.onClose(followed.letGo);
        if (seen !== String(followed.told)) sayProgress(followed.told);
      }
      // A stream of the text that the schema describes.
      return reply.send(stream.body as unknown as string);
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Stop a search',
        description: 'To "stopped". One that was running answers a moment later with the best it had found by then.',
        params: PlanSearchParams,
        body: PlanSearchMove,
        response: { 200: PlanSearchWhole, ...problemReplies },
      },
    },
    async (request, reply) => {
      const search = once(platform, { request, reply, status: 200, needed: true }, () =>
        planSearches.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, search.version);
      return search;
    },
  );

  app.post(
    '/:id/plans',
    {
      schema: {
        tags,
        summary: 'Keep the plan that was found: a draft of its piece',
        description:
          'Once, and as long as the design and what is made of the piece are what they were when the search was asked for.',
        params: PlanSearchParams,
        response: { 201: PlanReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const plan = planSearches.take(actorOf(request), request.params.id);
      reply.code(201);
      sendVersion(reply, plan.version);
      return plan;
    },
  );
};

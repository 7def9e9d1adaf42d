import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import {
  JarsReply,
  NewScrapReturn,
  ScrapParams,
  ScrapReturnQuery,
  ScrapReturnReply,
  ScrapReversal,
  Settlement,
} from './scrap.schema.ts';
import type { ScrapService } from './scrap.service.ts';

const tags = ['scrap'];

export const scrapJarRoutes: FastifyPluginAsyncZod<{ scrap: ScrapService }> = async (app, { scrap }) => {
  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'What the books expect in the jars of scrap, and whether a jar is worth sending',
        response: { 200: JarsReply, ...problemReplies },
      },
    },
    async () => scrap.jars(),
  );
};

export const scrapReturnRoutes: FastifyPluginAsyncZod<{ scrap: ScrapService; platform: Once }> = async (
  app,
  { scrap, platform },
) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Send a jar of scrap to the refiner',
        body: NewScrapReturn,
        response: { 201: ScrapReturnReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const sent = once(platform, { request, reply, status: 201 }, () => scrap.send(actorOf(request), request.body));
      sendVersion(reply, sent.version);
      return sent;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Jars that were sent, newest first',
        querystring: ScrapReturnQuery,
        response: { 200: pageReply(ScrapReturnReply), ...problemReplies },
      },
    },
    async (request) => scrap.list(request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One jar that was sent',
        params: ScrapParams,
        response: { 200: ScrapReturnReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const sent = scrap.get(request.params.id);
      sendVersion(reply, sent.version);
      return sent;
    },
  );

  app.post(
    '/:id/settlements',
    {
      schema: {
        tags,
        summary: 'Note what the refiner wrote: bar, fine metal, pay and fees, and what was found of what was expected',
        params: ScrapParams,
        body: Settlement,
        response: { 201: ScrapReturnReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const sent = once(platform, { request, reply, status: 201 }, () =>
        scrap.settle(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, sent.version);
      return sent;
    },
  );

  app.post(
    '/:id/reversals',
    {
      schema: {
        tags,
        summary: 'Take back what was noted last of a jar: its settlement, else that it was sent',
        description:
          'Without its settlement it waits for one again. What was never sent is in its jar again, with the pieces it is from; offcuts that were sent later are taken back first.',
        params: ScrapParams,
        body: ScrapReversal,
        response: { 201: ScrapReturnReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const sent = once(platform, { request, reply, status: 201 }, () =>
        scrap.takeBack(actorOf(request), request.params.id, request.body.reason),
      );
      sendVersion(reply, sent.version);
      return sent;
    },
  );
};

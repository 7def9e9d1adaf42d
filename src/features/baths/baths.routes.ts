import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import { BathMove, BathParams, BathQuery, BathReply, DipReply, DipReversal, NewBath } from './baths.schema.ts';
import type { BathService } from './baths.service.ts';

export const bathRoutes: FastifyPluginAsyncZod<{ baths: BathService; platform: Once }> = async (app, { baths, platform }) => {
  const tags = ['baths'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Note a bath that was mixed; what is not said is as in the settings',
        body: NewBath,
        response: { 201: BathReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const bath = once(platform, { request, reply, status: 201 }, () => baths.mix(actorOf(request), request.body));
      sendVersion(reply, bath.version);
      return bath;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Pickle baths, newest first, with both their clocks; by state: gone is the log of disposal',
        querystring: BathQuery,
        response: { 200: pageReply(BathReply), ...problemReplies },
      },
    },
    async (request) => baths.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    { schema: { tags, summary: 'One bath', params: BathParams, response: { 200: BathReply, ...problemReplies } } },
    async (request, reply) => {
      const bath = baths.get(actorOf(request), request.params.id);
      sendVersion(reply, bath.version);
      return bath;
    },
  );

  app.get(
    '/:id/dips',
    {
      schema: {
        tags,
        summary: 'What went into a bath, newest first',
        params: BathParams,
        querystring: PageQuery,
        response: { 200: pageReply(DipReply), ...problemReplies },
      },
    },
    async (request) => baths.dips(request.params.id, request.query),
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Iron went in, it is out again; spent, neutralised, gone',
        description:
          'Tiring and spent come by themselves, counted from the heats that were dipped. Neutralised takes a pH of 7 to 9, gone where it went.',
        params: BathParams,
        body: BathMove,
        response: { 200: BathReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const bath = once(platform, { request, reply, status: 200, needed: true }, () =>
        baths.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, bath.version);
      return bath;
    },
  );
};

export const dipRoutes: FastifyPluginAsyncZod<{ baths: BathService; platform: Once }> = async (app, { baths, platform }) => {
  app.post(
    '/:id/reversals',
    {
      schema: {
        tags: ['baths'],
        summary: 'Take a dip back that was counted in the wrong bath, or never was, once',
        description:
          'The clocks of the bath go on without it; tiring or spent by its count, the bath is what the dips left make it.',
        params: BathParams,
        body: DipReversal,
        response: { 201: DipReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () =>
        baths.takeDipBack(actorOf(request), request.params.id, request.body.reason),
      ),
  );
};

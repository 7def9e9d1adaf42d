import type { FastifyReply } from 'fastify';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { SESSION_COOKIE } from '../../platform/http/sign-in.ts';
import type { PinService } from './pins.service.ts';
import {
  NewPin,
  NewTablet,
  OneTimeCodeReply,
  PersonIdParams,
  PinByCode,
  PinReply,
  TabletNow,
  TabletReply,
  Unlock,
} from './tablets.schema.ts';
import type { TabletService } from './tablets.service.ts';

interface Needs {
  tablets: TabletService;
  pins: PinService;
}

const TABLET_COOKIE = 'hearthbook_tablet';
const TABLET_YEARS_S = 5 * 365 * 86_400;
const TRIES = { rateLimit: { max: 30, timeWindow: '1 minute' } };

export const tabletRoutes: FastifyPluginAsyncZod<Needs> = async (app, { tablets, pins }) => {
  const tags = ['people'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Make this device a tablet that several people use by their PINs',
        description: 'Sets a cookie on it, and signs out whoever made it: it starts locked.',
        body: NewTablet,
        response: { 201: TabletReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const { secret, tablet } = tablets.add(actorOf(request), request.body, request.cookies[SESSION_COOKIE]);
      const secure = request.protocol === 'https';
      reply.setCookie(TABLET_COOKIE, secret, { path: '/', httpOnly: true, sameSite: 'strict', secure, maxAge: TABLET_YEARS_S });
      reply.clearCookie(SESSION_COOKIE, { path: '/' });
      reply.code(201);
      return tablet;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Shared tablets, newest first',
        querystring: PageQuery,
        response: { 200: pageReply(TabletReply), ...problemReplies },
      },
    },
    async (request) => tablets.list(request.query),
  );

  app.delete(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Make a device a shared tablet no more',
        params: PersonIdParams,
        response: { 200: TabletReply, ...problemReplies },
      },
    },
    async (request) => tablets.remove(actorOf(request), request.params.id),
  );

  app.get(
    '/current',
    {
      schema: {
        tags,
        summary: 'What this tablet shows: who may unlock it, who did',
        response: { 200: TabletNow, ...problemReplies },
      },
    },
    async (request) => tablets.now(request.cookies[TABLET_COOKIE], request.cookies[SESSION_COOKIE]),
  );

  app.post(
    '/current/unlocks',
    {
      config: TRIES,
      schema: {
        tags,
        summary: 'Unlock this tablet with a PIN, for the work at the bench alone; whoever was at it is so no more',
        description:
          'Wrong PINs are slowed, for each person and each tablet. To lock it, sign out (DELETE /sessions/current); it locks itself after the minutes of the settings.',
        body: Unlock,
        response: {
          201: z.object({ personId: z.string(), name: z.string(), locksAt: z.string() }),
          ...problemReplies,
        },
      },
    },
    async (request, reply) => {
      const { secret, unlocked } = await tablets.unlock(request.cookies[TABLET_COOKIE], request.body);
      setSession(reply, secret, request.protocol === 'https');
      reply.code(201);
      return unlocked;
    },
  );

  app.post(
    '/current/pins',
    {
      config: TRIES,
      schema: {
        tags,
        summary: 'Choose a PIN at this tablet, with the code that the owner gave',
        body: PinByCode,
        response: { 201: PinReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const pin = await pins.setByCode(request.body, tablets.tabletOf(request.cookies[TABLET_COOKIE]));
      reply.code(201);
      return pin;
    },
  );

  app.post(
    '/current/touches',
    {
      schema: {
        tags,
        summary: 'Say that somebody is at the tablet, so that it does not lock itself while they read',
        response: { 200: z.object({ locksAt: z.string().nullable() }), ...problemReplies },
      },
    },
    async (request) => tablets.touch(request.cookies[SESSION_COOKIE]),
  );
};

export const pinRoutes: FastifyPluginAsyncZod<{ pins: PinService }> = async (app, { pins }) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['people'],
        summary: 'Set one’s own PIN for shared tablets',
        body: NewPin,
        response: { 201: PinReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const pin = await pins.set(actorOf(request), request.body.pin);
      reply.code(201);
      return pin;
    },
  );

  app.delete(
    '/:id',
    {
      schema: {
        tags: ['people'],
        summary: 'Take a person’s PIN away',
        params: PersonIdParams,
        response: { 204: z.null(), ...problemReplies },
      },
    },
    async (request, reply) => {
      pins.remove(actorOf(request), request.params.id);
      return reply.code(204).send(null);
    },
  );

  app.post(
    '/:id/codes',
    {
      schema: {
        tags: ['people'],
        summary: 'Take a person’s PIN away, and give a code with which they choose another at a tablet',
        params: PersonIdParams,
        response: { 201: OneTimeCodeReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      reply.code(201);
      return pins.reset(actorOf(request), request.params.id);
    },
  );
};

/** It lasts as long as the browser is open; the server locks it sooner. */
function setSession(reply: FastifyReply, secret: string, secure: boolean): void {
  reply.setCookie(SESSION_COOKIE, secret, { path: '/', httpOnly: true, sameSite: 'lax', secure });
}

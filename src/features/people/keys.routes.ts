import type { FastifyReply } from 'fastify';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf, type Actor } from '../../platform/http/actor.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { SESSION_COOKIE } from '../../platform/http/sign-in.ts';
import { SESSION_DAYS, type KeysService } from './keys.service.ts';
import { NewToken, NewTokenReply, PersonParams, SessionReply, SignIn, TokenReply, WhoReply } from './people.schema.ts';

export const sessionRoutes: FastifyPluginAsyncZod<{ keys: KeysService }> = async (app, { keys }) => {
  app.post(
    '/',
    {
      config: { rateLimit: { max: 10, timeWindow: '1 minute' } },
      schema: {
        tags: ['people'],
        summary: 'Sign in: sets the session cookie',
        body: SignIn,
        response: { 201: WhoReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const { secret, actor } = await keys.signIn(request.body);
      setCookie(reply, secret, request.protocol === 'https');
      reply.code(201);
      return who(actor);
    },
  );

  app.get(
    '/current',
    { schema: { tags: ['people'], summary: 'Who I am', response: { 200: WhoReply, ...problemReplies } } },
    async (request) => who(actorOf(request)),
  );

  app.delete(
    '/current',
    { schema: { tags: ['people'], summary: 'Sign out', response: { 204: z.null(), ...problemReplies } } },
    async (request, reply) => {
      const secret = request.cookies[SESSION_COOKIE];
      if (secret) keys.signOut(actorOf(request), secret);
      reply.clearCookie(SESSION_COOKIE, { path: '/' });
      reply.code(204);
      return null;
    },
  );
};

/** Sessions on other devices; beside that of the one who asks. */
export const otherSessionRoutes: FastifyPluginAsyncZod<{ keys: KeysService }> = async (app, { keys }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['people'],
        summary: 'Who is signed in, newest first: own sessions, for the owner everybody’s',
        querystring: PageQuery,
        response: { 200: pageReply(SessionReply), ...problemReplies },
      },
    },
    async (request) => keys.listSessions(actorOf(request), request.query),
  );

  app.delete(
    '/:id',
    {
      schema: {
        tags: ['people'],
        summary: 'End a session, on whatever device it is',
        params: PersonParams,
        response: { 204: z.null(), ...problemReplies },
      },
    },
    async (request, reply) => {
      keys.endSession(actorOf(request), request.params.id);
      return reply.code(204).send(null);
    },
  );
};

export const tokenRoutes: FastifyPluginAsyncZod<{ keys: KeysService }> = async (app, { keys }) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['people'],
        summary: 'Make a bearer token; its secret is shown this once',
        body: NewToken,
        response: { 201: NewTokenReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      reply.code(201);
      return keys.addToken(actorOf(request), request.body);
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['people'],
        summary: 'Tokens: own ones, for the owner all',
        querystring: PageQuery,
        response: { 200: pageReply(TokenReply), ...problemReplies },
      },
    },
    async (request) => keys.listTokens(actorOf(request), request.query),
  );

  app.delete(
    '/:id',
    {
      schema: {
        tags: ['people'],
        summary: 'End a token',
        params: PersonParams,
        response: { 200: TokenReply, ...problemReplies },
      },
    },
    async (request) => keys.revokeToken(actorOf(request), request.params.id),
  );
};

function setCookie(reply: FastifyReply, secret: string, secure: boolean): void {
  reply.setCookie(SESSION_COOKIE, secret, { path: '/', httpOnly: true, sameSite: 'lax', secure, maxAge: SESSION_DAYS * 86_400 });
}

function who({ personId, name, roles, tutor }: Actor): z.infer<typeof WhoReply> {
  return { personId, name, roles: [...roles], tutor };
}

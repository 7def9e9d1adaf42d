import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import {
  LinkMove,
  LinkParams,
  LinkQuery,
  LinkReply,
  MessageQuery,
  MessageReply,
  NewLink,
  NewLinkReply,
} from './private-links.schema.ts';
import type { PrivateLinkService } from './private-links.service.ts';

interface Options {
  links: PrivateLinkService;
  platform: Once;
}

const tags = ['private-links'];

export const privateLinkRoutes: FastifyPluginAsyncZod<Options> = async (app, { links, platform }) => {
  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Make a link by which a client follows a commission, without an account',
        description:
          'The page behind it, /link/…, shows title, stage, due date, the versions that were sent with their letters, what is paid and owed, and the care card; there the client accepts, declines and asks. It works without script. Off until the owner turns privateLinks on in the settings; ends 30 days after handing over.',
        body: NewLink,
        response: { 201: NewLinkReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const link = links.add(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, link.version);
      return link;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Links, newest first; by commission or state',
        querystring: LinkQuery,
        response: { 200: pageReply(LinkReply), ...problemReplies },
      },
    },
    async (request) => links.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: { tags, summary: 'One link', params: LinkParams, response: { 200: LinkReply, ...problemReplies } },
    },
    async (request, reply) => {
      const link = links.get(actorOf(request), request.params.id);
      sendVersion(reply, link.version);
      return link;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Cut a link off: from now on it opens nothing',
        params: LinkParams,
        body: LinkMove,
        response: { 200: LinkReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const link = once(platform, { request, reply, status: 200, needed: true }, () =>
        links.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, link.version);
      return link;
    },
  );
};

export const clientMessageRoutes: FastifyPluginAsyncZod<Pick<Options, 'links'>> = async (app, { links }) => {
  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'What clients wrote by their links, newest first',
        querystring: MessageQuery,
        response: { 200: pageReply(MessageReply), ...problemReplies },
      },
    },
    async (request) => links.messages(request.query),
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { ClientChange, ClientParams, ClientReply, NewClient } from './clients.schema.ts';
import type { ClientService } from './clients.service.ts';

export const clientRoutes: FastifyPluginAsyncZod<{ clients: ClientService }> = async (app, { clients }) => {
  app.post(
    '/',
    {
      schema: {
        tags: ['clients'],
        summary: 'Note a client: a name and one way to reach them',
        body: NewClient,
        response: { 201: ClientReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const client = clients.add(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, client.version);
      return client;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags: ['clients'],
        summary: 'Clients, newest first; ?name= finds part of a name',
        querystring: PageQuery.extend({ name: z.string().max(120).optional() }),
        response: { 200: pageReply(ClientReply), ...problemReplies },
      },
    },
    async (request) => clients.list(request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags: ['clients'],
        summary: 'One client',
        params: ClientParams,
        response: { 200: ClientReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const client = clients.get(request.params.id);
      sendVersion(reply, client.version);
      return client;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => clients.get(id) },
      schema: {
        tags: ['clients'],
        summary: 'Change a client',
        params: ClientParams,
        body: ClientChange,
        response: { 200: ClientReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const client = clients.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, client.version);
      return client;
    },
  );
};

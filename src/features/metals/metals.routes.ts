import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { MetalChange, MetalParams, MetalReply, NewMetal, OwnMetalReply } from './metals.schema.ts';
import type { MetalService } from './metals.service.ts';

export const metalRoutes: FastifyPluginAsyncZod<{ metals: MetalService }> = async (app, { metals }) => {
  const tags = ['materials'];

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Metals that a part may name, every value with its source',
        description:
          'The rows of the table first (from: table), the same for every studio and with their sources at /docs/materials; then the studio’s own (from: studio), those that are retired among them. Either is named by its id.',
        response: { 200: z.object({ items: z.array(MetalReply) }), ...problemReplies },
      },
    },
    async () => ({ items: metals.list() }),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One metal, of the table or the studio’s own; the ETag of the latter is its version',
        params: MetalParams,
        response: { 200: MetalReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const metal = metals.get(request.params.id);
      if (metal.from === 'studio') sendVersion(reply, metal.version);
      return metal;
    },
  );

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Add a metal of your own, each value with who says so',
        description:
          'Needed are the two temperatures and the density, and of a silver the fineness. What is left out stands as that of the nearest metal of the table, and the reply says so (standing: assumed). From then on its id serves wherever that of a table metal does: in designs, pieces, prices of metals and calculations.',
        body: NewMetal,
        response: { 201: OwnMetalReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const metal = metals.add(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, metal.version);
      return metal;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => metals.stored(id) },
      schema: {
        tags,
        summary: 'Correct, retire or bring back a metal of your own',
        description:
          'A design keeps its metals as they were when it was saved: it changes when it is saved again with the id alone. A value is sent with its source; null leaves it to the table again.',
        params: MetalParams,
        body: MetalChange,
        response: { 200: OwnMetalReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const metal = metals.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, metal.version);
      return metal;
    },
  );
};

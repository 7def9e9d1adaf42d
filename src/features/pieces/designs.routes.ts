import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { DesignBody, DesignReply } from './designs.schema.ts';
import type { DesignService } from './designs.service.ts';
import { PieceParams } from './pieces.schema.ts';

export const designRoutes: FastifyPluginAsyncZod<{ designs: DesignService }> = async (app, { designs }) => {
  const tags = ['pieces'];

  app.get(
    '/:id/design',
    {
      schema: {
        tags,
        summary: 'The design of a piece: parts, joints, rules',
        params: PieceParams,
        response: { 200: DesignReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const design = designs.get(request.params.id);
      sendVersion(reply, design.number);
      return design;
    },
  );

  app.put(
    '/:id/design',
    {
      config: { stored: ({ id }: { id: string }) => designs.stored(id) },
      schema: {
        tags,
        summary: 'Write the design of a piece, as a new version',
        description:
          'With If-Match from the second version on. Every fault is told at once. After the first flame it stands; plans made for an older design cannot be taken into use. A metal of the studio that is named by its id is kept as it is now, as a copy with the id as its code, and stays so in this version: a later correction of the metal changes no plan and no price of it. Send the id alone again to take the metal as it is then.',
        params: PieceParams,
        body: DesignBody,
        response: { 200: DesignReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const design = designs.put(actorOf(request), request.params.id, () => versionSeen(request), request.body);
      sendVersion(reply, design.number);
      return design;
    },
  );
};

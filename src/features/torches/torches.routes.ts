import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { NewTorch, TorchChange, TorchParams, TorchReply } from './torches.schema.ts';
import type { TorchService } from './torches.service.ts';

export const torchRoutes: FastifyPluginAsyncZod<{ torches: TorchService }> = async (app, { torches }) => {
  const tags = ['torches'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Note a torch of the studio: a preset or numbers of its own',
        description: 'A plan, or the settings, may then name it by torchId; a calibration of it is by person.',
        body: NewTorch,
        response: { 201: TorchReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const torch = torches.add(actorOf(request), request.body);
      reply.code(201);
      sendVersion(reply, torch.version);
      return torch;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Torches, newest first',
        querystring: PageQuery,
        response: { 200: pageReply(TorchReply), ...problemReplies },
      },
    },
    async (request) => torches.list(request.query),
  );

  app.get(
    '/:id',
    { schema: { tags, summary: 'One torch', params: TorchParams, response: { 200: TorchReply, ...problemReplies } } },
    async (request, reply) => {
      const torch = torches.get(request.params.id);
      sendVersion(reply, torch.version);
      return torch;
    },
  );

  app.patch(
    '/:id',
    {
      config: { stored: ({ id }: { id: string }) => torches.get(id) },
      schema: {
        tags,
        summary: 'Change a torch; its numbers stand still once somebody has calibrated it',
        params: TorchParams,
        body: TorchChange,
        response: { 200: TorchReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const torch = torches.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, torch.version);
      return torch;
    },
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import { ClientReply } from '../clients/index.ts';
import type { ClientLookService } from './client-looks.ts';
import { ClientRightsParams, Forgetting, HeldReply, LookQuery, LookReply } from './client-rights.schema.ts';
import type { ClientRightsService } from './client-rights.service.ts';

export const clientRightsRoutes: FastifyPluginAsyncZod<{ rights: ClientRightsService }> = async (app, { rights }) => {
  app.get(
    '/:id/held',
    {
      schema: {
        tags: ['clients'],
        summary: 'What we hold of a client, as one file to give to them',
        params: ClientRightsParams,
        response: { 200: HeldReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      reply.header('content-disposition', 'attachment; filename="what-we-hold.json"');
      return rights.held(request.params.id);
    },
  );

  app.post(
    '/:id/forgetting',
    {
      schema: {
        tags: ['clients'],
        summary: 'Forget a client, for good: the books stay whole, without the person',
        description:
          'Their name becomes “Former client” with a number, everywhere: on bills and letters too, so print those first that have to be kept with the name. What they said, left and wrote goes out of the book, its journal and its file; pictures with a person in them go; private links are cut off. What was made, of what, for how much, and each piece’s solder history stay. Backups, exports and paper made before still have it; after a way back to one of those, forget the client again. Not while a commission is open.',
        params: ClientRightsParams,
        body: Forgetting,
        response: { 200: ClientReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const client = rights.forget(actorOf(request), request.params.id, request.body.name);
      sendVersion(reply, client.version);
      return client;
    },
  );
};

export const clientLookRoutes: FastifyPluginAsyncZod<{ looks: ClientLookService }> = async (app, { looks }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['clients'],
        summary: 'Who looked at what is known of clients, newest first; of one client',
        description: 'One line for each person, way and hour. Whoever writes to a client’s page is in the journal.',
        querystring: LookQuery,
        response: { 200: pageReply(LookReply), ...problemReplies },
      },
    },
    async (request) => looks.list(request.query),
  );
};

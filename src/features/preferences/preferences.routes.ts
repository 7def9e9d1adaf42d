import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { PreferencesBody, PreferencesReply } from './preferences.schema.ts';
import type { PreferencesService } from './preferences.service.ts';

export const preferencesRoutes: FastifyPluginAsyncZod<{ preferences: PreferencesService }> = async (app, { preferences }) => {
  const tags = ['people'];

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'My language and units, and what of the studio everybody reads',
        response: { 200: PreferencesReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const found = preferences.get(actorOf(request));
      sendVersion(reply, found.version);
      return found;
    },
  );

  app.put(
    '/',
    {
      schema: {
        tags,
        summary: 'Set my language and units',
        body: PreferencesBody,
        response: { 200: PreferencesReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const set = preferences.set(actorOf(request), versionSeen(request), request.body);
      sendVersion(reply, set.version);
      return set;
    },
  );
};

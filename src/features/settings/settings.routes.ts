import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import { SettingsChange, SettingsReply } from './settings.schema.ts';
import type { SettingsService } from './settings.service.ts';

export const settingsRoutes: FastifyPluginAsyncZod<{ settings: SettingsService }> = async (app, { settings }) => {
  app.get(
    '/',
    {
      schema: {
        tags: ['settings'],
        summary: 'The studio’s settings, and where each starts from',
        response: { 200: SettingsReply, ...problemReplies },
      },
    },
    async (_request, reply) => {
      const found = settings.get();
      sendVersion(reply, found.version);
      return found;
    },
  );

  app.patch(
    '/',
    {
      config: { stored: () => settings.get().settings },
      schema: {
        tags: ['settings'],
        summary: 'Change settings (JSON Merge Patch)',
        body: SettingsChange,
        response: { 200: SettingsReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const changed = settings.change(actorOf(request), versionSeen(request), request.body);
      sendVersion(reply, changed.version);
      return changed;
    },
  );
};

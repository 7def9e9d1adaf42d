import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { BackupParams, BackupReply, BackupStanding } from './backups.schema.ts';
import type { BackupService } from './backups.service.ts';

export const backupRoutes: FastifyPluginAsyncZod<{ backups: BackupService }> = async (app, { backups }) => {
  const tags = ['backups'];

  app.get(
    '/standing',
    {
      schema: {
        tags,
        summary: 'Whether the book is backed up as it should be, and what is wrong if not',
        response: { 200: BackupStanding, ...problemReplies },
      },
    },
    async () => backups.standing(),
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Backups, newest first',
        querystring: PageQuery,
        response: { 200: pageReply(BackupReply), ...problemReplies },
      },
    },
    async (request) => backups.list(request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One backup, and what became of it',
        params: BackupParams,
        response: { 200: BackupReply, ...problemReplies },
      },
    },
    async (request) => backups.get(request.params.id),
  );

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Make a backup now, into the folder of the settings',
        description: 'It is begun, and works on by itself: ask for it by its id.',
        response: { 202: BackupReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      reply.code(202);
      return backups.make(actorOf(request));
    },
  );

  app.post(
    '/:id/checks',
    {
      schema: {
        tags,
        summary: 'Open a backup and read through the whole book in it',
        description:
          'As the server does by itself once a month: its pages, its keys, its stock. It works on by itself: ask for the backup by its id.',
        params: BackupParams,
        response: { 202: BackupReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      reply.code(202);
      return backups.check(request.params.id);
    },
  );
};

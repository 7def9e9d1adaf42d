import multipart from '@fastify/multipart';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { readForm } from '../../platform/http/form-body.ts';
import { answerKept, once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { NewPhoto, PhotoChange, PhotoFileQuery, PhotoParams, PhotoQuery, PhotoReply } from './photos.schema.ts';
import type { PhotoService } from './photos.service.ts';
import { sendPicture } from './send-picture.ts';

interface Needs {
  platform: Platform;
  photos: PhotoService;
}

/** Of the refuse fence of a file; one byte more breaks off. */
const MOST_BYTES = 40_000_000;

export const photoRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, photos }) => {
  const tags = ['photos'];
  await app.register(multipart, {
    limits: { fileSize: MOST_BYTES, files: 1, fields: 12, parts: 13, fieldNameSize: 60, fieldSize: 2000 },
  });

  app.post(
    '/',
    {
      config: { readBody: readForm },
      schema: {
        tags,
        summary: 'Add a photo to a piece, a heat, an incident or a commission, as a form with a file',
        description:
          'It is kept private. The same form with the same Idempotency-Key is added once, so that a device may send it again.',
        consumes: ['multipart/form-data'],
        body: NewPhoto,
        response: { 201: PhotoReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const actor = actorOf(request);
      // Decoding takes its time, and the transaction does not wait: what was added before is answered first.
      const kept = answerKept(platform.db, { request, reply }) as z.infer<typeof PhotoReply> | undefined;
      const picture = kept === undefined ? await photos.read(actor, request.body) : undefined;
      const photo = picture
        ? once(platform, { request, reply, status: 201 }, () => photos.add(actor, request.body, picture))
        : kept!;
      sendVersion(reply, photo.version);
      return photo;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Photos, newest first',
        querystring: PhotoQuery,
        response: { 200: pageReply(PhotoReply), ...problemReplies },
      },
    },
    async (request) => photos.list(actorOf(request), request.query),
  );

  app.get(
    '/:id/file',
    {
      schema: {
        tags,
        summary: 'The picture itself',
        params: PhotoParams,
        querystring: PhotoFileQuery,
        response: {
          200: {
            description: 'A JPEG',
            content: { 'image/jpeg': { schema: z.unknown().meta({ type: 'string', format: 'binary' }) } },
          },
          304: z.null().describe('As it was when its ETag, sent as If-None-Match, was read.'),
          ...problemReplies,
        },
      },
    },
    async (request, reply) => sendPicture(request, reply, photos.file(actorOf(request), request.params.id, request.query.size)),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'What is said of one photo',
        params: PhotoParams,
        response: { 200: PhotoReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const photo = photos.get(actorOf(request), request.params.id);
      sendVersion(reply, photo.version);
      return photo;
    },
  );

  app.patch(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Say something else of a photo, or that the client may see it',
        params: PhotoParams,
        body: PhotoChange,
        response: { 200: PhotoReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const photo = photos.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, photo.version);
      return photo;
    },
  );

  app.delete(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Take a photo out of the book',
        params: PhotoParams,
        response: { 204: z.null(), ...problemReplies },
      },
    },
    async (request, reply) => {
      photos.remove(actorOf(request), request.params.id);
      return reply.code(204).send(null);
    },
  );
};

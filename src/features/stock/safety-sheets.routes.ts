import multipart from '@fastify/multipart';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { readForm } from '../../platform/http/form-body.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { NewSafetySheet, SafetySheetReply } from './safety-sheets.schema.ts';
import type { SafetySheetService } from './safety-sheets.service.ts';
import { StockParams } from './stock-fields.ts';

const MOST_BYTES = 10_000_000;

const aFile = { schema: z.unknown().meta({ type: 'string', format: 'binary' }) };

export const safetySheetRoutes: FastifyPluginAsyncZod<{ safetySheets: SafetySheetService }> = async (app, { safetySheets }) => {
  const tags = ['stock'];
  await app.register(multipart, {
    limits: { fileSize: MOST_BYTES, files: 1, fields: 1, parts: 2, fieldNameSize: 60, fieldSize: 100 },
  });

  app.post(
    '/:id/safety-sheet',
    {
      config: { readBody: readForm },
      schema: {
        tags,
        summary: 'Keep the safety data sheet of a product as a file, as a form with a file',
        consumes: ['multipart/form-data'],
        params: StockParams,
        body: NewSafetySheet,
        response: { 201: SafetySheetReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      reply.code(201);
      return safetySheets.put(actorOf(request), request.params.id, request.body.file);
    },
  );

  app.get(
    '/:id/safety-sheet',
    {
      schema: {
        tags,
        summary: 'The safety data sheet of a product',
        params: StockParams,
        response: {
          200: { description: 'As it was sent', content: { 'application/pdf': aFile, 'image/png': aFile, 'image/jpeg': aFile } },
          ...problemReplies,
        },
      },
    },
    async (request, reply) => {
      const { mediaType, bytes } = safetySheets.file(request.params.id);
      return reply
        .header('x-content-type-options', 'nosniff')
        .header('content-security-policy', "default-src 'none'; sandbox")
        .header('content-disposition', 'inline')
        .header('cache-control', 'private, no-cache')
        .type(mediaType)
        .send(bytes);
    },
  );
};

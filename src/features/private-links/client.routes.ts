import type { FastifyReply, FastifyRequest } from 'fastify';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { Problem } from '../../platform/http/problem.ts';
import { PaperQuery, sendPaper, sendPrivately, type MessageKey } from '../documents/index.ts';
import { PhotoFileQuery, sendPicture } from '../photos/index.ts';
import { clientPage, PAGE_CSP, refusalPage } from './client-page.ts';
import { Refusal, type ClientService } from './client.service.ts';
import {
  CardParams,
  ClientAnswer,
  ClientMessage,
  LetterParams,
  PageParams,
  PageQueryParams,
  PhotoParams,
} from './private-links.schema.ts';

const MOST_BYTES = 16 * 1024;
const READING = { rateLimit: { max: 60, timeWindow: '1 minute' } };
/** A page may show many at once. */
const PICTURES = { rateLimit: { max: 300, timeWindow: '1 minute' } };
const WRITING = { rateLimit: { max: 15, timeWindow: '1 minute' } };

/** The client's pages: plain HTML and forms, no script. They speak to a browser, so they are no part of the API's document. */
export const clientPageRoutes: FastifyPluginAsyncZod<{ client: ClientService; isSample: boolean }> = async (
  app,
  { client, isSample },
) => {
  app.addContentTypeParser(
    'application/x-www-form-urlencoded',
    { parseAs: 'string', bodyLimit: MOST_BYTES },
    async (_request: FastifyRequest, text: string) => Object.fromEntries(new URLSearchParams(text)),
  );
  app.addHook('onRequest', async (_request, reply) => keepPrivate(reply));
  app.setErrorHandler((error: Error, request, reply) => {
    const { token } = request.params as { token?: string };
    const base = token === undefined ? null : baseOf(token);
    // An error takes the type of the answer with it.
    keepPrivate(reply);
    if (error instanceof Refusal) {
      const isThere = error.status === 409 || (error.status === 404 && error.reason === 'refused.none');
      return reply.code(error.status).send(refusalPage(error.wording, error.reason, { base: isThere ? base : null, isSample }));
    }
    const status = statusOf(error);
    if (status >= 500) request.log.error({ err: error }, 'unexpected error');
    const reason = reasonOf(error, status);
    return reply.code(status).send(refusalPage(client.studioWording(), reason, { base: status === 422 ? base : null, isSample }));
  });

  app.get(
    '/:token',
    { config: READING, schema: { hide: true, params: PageParams, querystring: PageQueryParams } },
    async ({ params: { token }, query: { said }, ip }) =>
      clientPage(client.view(token, ip), { base: baseOf(token), isSample, said }),
  );

  app.get(
    '/:token/letters/:number',
    { config: READING, schema: { hide: true, params: LetterParams, querystring: PaperQuery } },
    async ({ params: { token, number }, query: { format }, ip }, reply) =>
      sendPaper(reply, client.letter(token, ip, number), format),
  );

  app.get(
    '/:token/care-cards/:serial',
    { config: READING, schema: { hide: true, params: CardParams, querystring: PaperQuery } },
    async ({ params: { token, serial }, query: { format }, ip }, reply) =>
      sendPaper(reply, client.card(token, ip, serial), format),
  );

  app.get(
    '/:token/photos/:photo',
    { config: PICTURES, schema: { hide: true, params: PhotoParams, querystring: PhotoFileQuery } },
    async (request, reply) => {
      const { params, query, ip } = request;
      return sendPicture(request, reply, client.photo(params.token, ip, params.photo, query.size));
    },
  );

  app.post(
    '/:token/answers',
    { config: WRITING, schema: { hide: true, params: PageParams, body: ClientAnswer } },
    async ({ params: { token }, body, ip }, reply) => {
      client.answer(token, ip, body);
      return reply.redirect(`${baseOf(token)}?said=${body.answer}`, 303);
    },
  );

  app.post(
    '/:token/messages',
    { config: WRITING, schema: { hide: true, params: PageParams, body: ClientMessage } },
    async ({ params: { token }, body, ip }, reply) => {
      client.ask(token, ip, body);
      return reply.redirect(`${baseOf(token)}?said=message`, 303);
    },
  );
};

function baseOf(token: string): string {
  return `/link/${encodeURIComponent(token)}`;
}

function keepPrivate(reply: FastifyReply): void {
  sendPrivately(reply, PAGE_CSP).type('text/html; charset=utf-8');
}

function reasonOf(error: Error, status: number): MessageKey {
  if (error instanceof Problem && error.slug === 'letters-not-in-font') return 'refused.no_pdf';
  return status === 429 ? 'refused.too_many' : status === 404 ? 'refused.unknown' : 'refused.form';
}

function statusOf(error: Error): number {
  if (error instanceof Problem) return error.status;
  const status = 'statusCode' in error ? error.statusCode : undefined;
  return typeof status === 'number' && status >= 400 && status < 500 ? status : 500;
}

import type { FastifyReply, FastifyRequest } from 'fastify';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { Problem } from '../../platform/http/problem.ts';
import { PaperQuery, sendPaper } from '../documents/index.ts';
import { clientPage, PAGE_CSP, refusalPage } from './client-page.ts';
import { Refusal, type ClientService } from './client.service.ts';
import { CardParams, ClientAnswer, ClientMessage, LetterParams, PageParams, PageQueryParams } from './private-links.schema.ts';

const MOST_BYTES = 16 * 1024;
const READING = { rateLimit: { max: 60, timeWindow: '1 minute' } };
const WRITING = { rateLimit: { max: 15, timeWindow: '1 minute' } };

/** The client's pages: plain HTML and forms, no script. They speak to a browser, so they are no part of the API's document. */
export const clientPageRoutes: FastifyPluginAsyncZod<{ client: ClientService }> = async (app, { client }) => {
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
      return reply.code(error.status).send(refusalPage(error.wording, error.reason, isThere ? base : null));
    }
    const status = statusOf(error);
    if (status >= 500) request.log.error({ err: error }, 'unexpected error');
    const reason = status === 429 ? 'refused.too_many' : status === 404 ? 'refused.unknown' : 'refused.form';
    return reply.code(status).send(refusalPage(client.studioWording(), reason, status === 422 ? base : null));
  });

  app.get(
    '/:token',
    { config: READING, schema: { hide: true, params: PageParams, querystring: PageQueryParams } },
    async ({ params: { token }, query: { said }, ip }) => clientPage(client.view(token, ip), { base: baseOf(token), said }),
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

/** Kept by no cache, found by no search, and told to no other page. */
function keepPrivate(reply: FastifyReply): void {
  reply
    .type('text/html; charset=utf-8')
    .header('content-security-policy', PAGE_CSP)
    .header('cache-control', 'no-store')
    .header('x-robots-tag', 'noindex, nofollow')
    .header('referrer-policy', 'no-referrer');
}

function statusOf(error: Error): number {
  if (error instanceof Problem) return error.status;
  const status = 'statusCode' in error ? error.statusCode : undefined;
  return typeof status === 'number' && status >= 400 && status < 500 ? status : 500;
}

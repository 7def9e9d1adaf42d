import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';
import { notFound } from './problem.ts';
import { ANY_PAGE } from './sign-in.ts';

const BUILT = fileURLToPath(new URL('../../../dist/', import.meta.url));

/** The page asks nobody but this server, runs no script but its own, and stands in no frame. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "font-src 'self'",
  "form-action 'self'",
  "base-uri 'none'",
  "frame-ancestors 'none'",
].join('; ');

const NOT_BUILT = 'The page of Hearthbook is not built yet: run "npm run page" where it is installed, then reload.\n';

/** The files of the page; every address that is neither a file nor the API's is one of the page's own. */
export async function servePage(app: FastifyInstance): Promise<void> {
  await app.register(fastifyStatic, {
    root: BUILT,
    wildcard: false,
    serve: false,
    // What is named by its content stays as it is for ever; all else is asked for anew.
    cacheControl: false,
    setHeaders: (reply, path) => {
      reply.header('cache-control', path.includes('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache');
      reply.header('content-security-policy', POLICY);
    },
  });
  app.get(ANY_PAGE, { schema: { hide: true } }, async (request, reply) => {
    const path = new URL(request.url, 'http://page').pathname;
    if (/^\/(api|docs|link)(\/|$)/.test(path)) return reply.callNotFound();
    if (!existsSync(`${BUILT}index.html`)) return reply.code(503).type('text/plain; charset=utf-8').send(NOT_BUILT);
    const file = path.slice(1);
    if (/^(assets\/)?[\w.-]+\.\w+$/.test(file)) {
      if (!existsSync(BUILT + file)) throw notFound('file', path);
      return reply.sendFile(file);
    }
    return reply.sendFile('index.html');
  });
}

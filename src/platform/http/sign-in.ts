import type { FastifyInstance, FastifyRequest } from 'fastify';
import { accessOf, rolesLetIn } from './access.ts';
import { setActor, type Actor } from './actor.ts';
import { Problem } from './problem.ts';
import { anyOf } from './text.ts';

interface Keys {
  whoAsks(request: FastifyRequest, cookie: string | undefined): Actor | undefined;
}

export const SESSION_COOKIE = 'hearthbook_session';
const READING = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Finds out who asks, before anything of the request is read, and holds every route to the access table. */
export function requireSignIn(app: FastifyInstance, keys: Keys): void {
  app.addHook('onRequest', async (request) => {
    const url = request.routeOptions.url;
    // An unknown path is told apart from a forbidden one only to those who are signed in.
    const access = url === undefined ? (request.url.startsWith('/api/') ? 'anyone' : 'open') : accessOf(request.method, url);
    if (access === 'open') return;
    const cookie = request.cookies[SESSION_COOKIE];
    const actor = keys.whoAsks(request, cookie);
    if (!actor) throw new Problem('not-signed-in', 'Sign in, or send a bearer token');
    if (!request.headers.authorization && !READING.has(request.method)) refuseOtherSites(request);
    if (access !== 'anyone' && !access?.some((role) => actor.roles.has(role))) {
      throw new Problem('forbidden', `Cannot do this: it is for ${anyOf(rolesLetIn(access ?? []))}`);
    }
    setActor(request, actor);
  });
}

/** A browser says where a request comes from; a cookie alone must not act for a page of another site. */
function refuseOtherSites(request: FastifyRequest): void {
  const site = request.headers['sec-fetch-site'];
  const origin = request.headers.origin;
  const foreign =
    (site !== undefined && site !== 'same-origin' && site !== 'none') ||
    (origin !== undefined && URL.parse(origin)?.host !== request.host);
  if (foreign) throw new Problem('other-site', 'Cannot act on a request from another site');
}

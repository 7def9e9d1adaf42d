import type { FastifyInstance, FastifyRequest } from 'fastify';
import { accessOf, rolesLetIn } from './access.ts';
import { setActor, type Actor } from './actor.ts';
import { Problem } from './problem.ts';
import { anyOf } from './text.ts';

/** Who asks, and whether less than all of that person says so: a short PIN, or a token for some of what they may. */
export interface Asking {
  actor: Actor;
  by: 'password' | 'pin' | 'token_for_less';
  onlyReads: boolean;
}

interface Keys {
  whoAsks(request: FastifyRequest, cookie: string | undefined): Asking | undefined;
}

/** The route that answers every address that no other does. */
export const ANY_PAGE = '/*';
export const SESSION_COOKIE = 'hearthbook_session';
export const READING: ReadonlySet<string> = new Set(['GET', 'HEAD', 'OPTIONS']);

/** Finds out who asks, before anything of the request is read, and holds every route to the access table. */
export function requireSignIn(app: FastifyInstance, keys: Keys): void {
  app.addHook('onRequest', async (request) => {
    const url = request.routeOptions.url;
    // An unknown path is told apart from a forbidden one only to those who are signed in.
    const unknown = url === undefined || url === ANY_PAGE;
    const access = unknown ? (request.url.startsWith('/api/') ? 'anyone' : 'open') : accessOf(request.method, url);
    if (access === 'open') return;
    const cookie = request.cookies[SESSION_COOKIE];
    const asking = keys.whoAsks(request, cookie);
    if (!asking) throw new Problem('not-signed-in', 'Sign in, or send a bearer token');
    if (!request.headers.authorization && !READING.has(request.method)) refuseOtherSites(request);
    const { actor, by, onlyReads } = asking;
    if (onlyReads && !READING.has(request.method))
      throw new Problem('forbidden', 'Cannot do this: the token is for looking alone');
    if (access === 'not_by_pin') {
      if (by === 'pin')
        throw new Problem('forbidden', 'Cannot do this by a PIN: sign in with your password, not at a shared tablet');
      if (by === 'token_for_less')
        throw new Problem(
          'forbidden',
          'Cannot do this by a token for less than its person may: it would open more than it is worth',
        );
    } else if (access !== 'anyone' && !access?.some((role) => actor.roles.has(role))) {
      throw new Problem('forbidden', `Cannot do this: it is for ${anyOf(rolesLetIn(access ?? []))}`);
    }
    setActor(request, actor);
  });
}

/** A browser says where a request comes from; a cookie alone must not act for a page of another site. @throws {Problem} */
export function refuseOtherSites(request: FastifyRequest): void {
  const site = request.headers['sec-fetch-site'];
  const origin = request.headers.origin;
  const foreign =
    (site !== undefined && site !== 'same-origin' && site !== 'none') ||
    (origin !== undefined && URL.parse(origin)?.host !== request.host);
  if (foreign) throw new Problem('other-site', 'Cannot act on a request from another site');
}

import type { FastifyInstance } from 'fastify';

/** Cookies of one visitor, by name. */
export type CookieJar = Map<string, string>;

/**
 * Keeps the cookies of the one visitor of a server here instead of in their browser, so that they mix with no other server's at the same
 * address. Call it after the cookies' own plugin.
 */
export function keepCookies(http: FastifyInstance, jar: CookieJar): void {
  http.addHook('onRequest', async (request) => {
    request.cookies = Object.fromEntries(jar);
  });
  http.addHook('onSend', async (_request, reply) => {
    for (const line of [reply.getHeader('set-cookie') ?? []].flat()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(String(line)) ?? [];
      // A cookie is cleared by being emptied.
      if (value === '') jar.delete(name);
      else jar.set(name, decodeURIComponent(value));
    }
    reply.removeHeader('set-cookie');
  });
}

import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify from 'fastify';
import { serializerCompiler } from 'fastify-type-provider-zod';
import type { z } from 'zod';

export interface BareRoute {
  path: string;
  method: 'GET' | 'POST';
  schema: z.ZodType;
  reply: unknown;
}

/** The ceiling: the plugins and the reply of each route as the product has them, and nothing behind them. */
export async function barePlugged(routes: readonly BareRoute[]): Promise<string> {
  const http = Fastify({ bodyLimit: 1024 * 1024 });
  http.setSerializerCompiler(serializerCompiler);
  await http.register(cookie);
  await http.register(helmet, {
    strictTransportSecurity: false,
    contentSecurityPolicy: { directives: { upgradeInsecureRequests: null } },
  });
  await http.register(rateLimit, { global: false });
  for (const { path, method, schema, reply } of routes)
    http.route({ method, url: path, schema: { response: { 200: schema } }, handler: async () => reply });
  return http.listen({ host: '127.0.0.1', port: 0 });
}

/** No plugin, no schema. */
export async function bareHello(): Promise<string> {
  const http = Fastify();
  http.get('/', async () => ({ hello: 'world' }));
  http.post('/', async () => ({ hello: 'world' }));
  return http.listen({ host: '127.0.0.1', port: 0 });
}

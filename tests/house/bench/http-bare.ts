import cookie from '@fastify/cookie';
import helmet from '@fastify/helmet';
import rateLimit from '@fastify/rate-limit';
import Fastify, { type FastifyInstance } from 'fastify';
import { serializerCompiler } from 'fastify-type-provider-zod';
import type { z } from 'zod';

export interface Bare {
  address: string;
  close: () => Promise<void>;
}

export interface BareRoute {
  path: string;
  method: 'GET' | 'POST';
  schema: z.ZodType;
  reply: unknown;
  /** What is done before it answers. */
  work?: () => void;
}

/** The ceiling: the plugins and the reply of each route as the product has them, and behind a write the same rows and no rules. */
export async function barePlugged(routes: readonly BareRoute[]): Promise<Bare> {
  const http = Fastify({ bodyLimit: 1024 * 1024 });
  http.setSerializerCompiler(serializerCompiler);
  await http.register(cookie);
  await http.register(helmet, {
    strictTransportSecurity: false,
    contentSecurityPolicy: { directives: { upgradeInsecureRequests: null } },
  });
  await http.register(rateLimit, { global: false });
  for (const { path, method, schema, reply, work } of routes) {
    const handler = async () => {
      work?.();
      return reply;
    };
    http.route({ method, url: path, schema: { response: { 200: schema } }, handler });
  }
  return listening(http);
}

/** No plugin, no schema. */
export async function bareHello(): Promise<Bare> {
  const http = Fastify();
  http.get('/', async () => ({ hello: 'world' }));
  http.post('/', async () => ({ hello: 'world' }));
  return listening(http);
}

async function listening(http: FastifyInstance): Promise<Bare> {
  return { address: await http.listen({ host: '127.0.0.1', port: 0 }), close: () => http.close() };
}

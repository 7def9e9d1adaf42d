import type { FastifyRequest } from 'fastify';

/** Where the one who asks reached the book, such as http://192.168.1.20:3047; of a name that is no host nothing, which leaves a path. */
export function originOf({ protocol, host }: FastifyRequest): string {
  const url = URL.parse(`${protocol}://${host}`);
  return url === null || url.host === '' ? '' : url.origin;
}

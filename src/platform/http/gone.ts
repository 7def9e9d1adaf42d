import type { FastifyReply } from 'fastify';

/**
 * Aborts when the one who asked has gone before the answer was sent.
 *
 * The reply's own stream tells it: the request's closes as soon as its body has been read.
 */
export function goneSignal(reply: FastifyReply): AbortSignal {
  const gone = new AbortController();
  reply.raw.once('close', () => {
    if (!reply.raw.writableFinished) gone.abort();
  });
  return gone.signal;
}

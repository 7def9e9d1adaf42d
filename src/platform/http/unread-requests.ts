import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import type { FastifyReply, FastifyRequest, FastifyServerOptions } from 'fastify';
import { Problem, type ProblemSlug } from './problem.ts';

const SLUG_BY_CODE: Readonly<Record<string, ProblemSlug>> = {
  HPE_HEADER_OVERFLOW: 'headers-too-large',
  ERR_HTTP_REQUEST_TIMEOUT: 'too-slow',
};

const WORDS: Readonly<Partial<Record<ProblemSlug, string>>> = {
  'headers-too-large': 'its headers, with the address, are too long',
  'too-slow': 'it took too long to arrive',
  'malformed-request': 'it is not written as HTTP is',
};

/**
 * Milliseconds after which nobody is waited for any longer: for the whole of a request to come, for the next byte of a connection either
 * way, and for the next request on it. Long enough for a photo over a poor network; headers have Node's own minute.
 */
export const patience = {
  requestTimeout: 300_000,
  connectionTimeout: 300_000,
  keepAliveTimeout: 72_000,
} satisfies FastifyServerOptions;

/** Left to what is under way when the server closes: an answer that still runs, a request that has not come whole. */
export const LAST_ANSWERS_MS = 5000;

/** Answers as problems what fails before there is a route, and so before the error handler could see it. */
export const unreadRequests = {
  frameworkErrors(_error: Error, _request: FastifyRequest, reply: FastifyReply): void {
    const problem = new Problem('not-found', 'Nothing answers at this address: it is too long, or not written as addresses are');
    void reply.code(problem.status).type('application/problem+json').send(problem.toJSON());
  },
  clientErrorHandler(error: Error & { code?: string }, socket: Socket): void {
    if (error.code === 'ECONNRESET' || !socket.writable) {
      socket.destroy();
      return;
    }
    const slug = SLUG_BY_CODE[error.code ?? ''] ?? 'malformed-request';
    const problem = new Problem(slug, `Cannot read the request: ${WORDS[slug]}`);
    const body = JSON.stringify(problem.toJSON());
    socket.end(
      `HTTP/1.1 ${problem.status} ${STATUS_CODES[problem.status]}\r\nConnection: close\r\n` +
        `Content-Type: application/problem+json\r\nContent-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`,
    );
  },
} satisfies FastifyServerOptions;

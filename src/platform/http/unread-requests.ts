import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import type { FastifyReply, FastifyRequest, FastifyServerOptions } from 'fastify';
import { Problem, type ProblemSlug } from './problem.ts';

const SLUG_BY_CODE: Readonly<Record<string, ProblemSlug>> = {
  HPE_HEADER_OVERFLOW: 'headers-too-large',
  ERR_HTTP_REQUEST_TIMEOUT: 'too-slow',
};

/** Answers as problems what fails before there is a route, and so before the error handler could see it. */
export const unreadRequests = {
  frameworkErrors(error: Error, _request: FastifyRequest, reply: FastifyReply): void {
    const problem = new Problem('not-found', `Nothing answers at this address: ${error.message.slice(0, 200)}`);
    void reply.code(problem.status).type('application/problem+json').send(problem.toJSON());
  },
  clientErrorHandler(error: Error & { code?: string }, socket: Socket): void {
    if (error.code === 'ECONNRESET' || !socket.writable) {
      socket.destroy();
      return;
    }
    const slug = SLUG_BY_CODE[error.code ?? ''] ?? 'malformed-request';
    const problem = new Problem(slug, `Cannot read the request: ${error.message}`);
    const body = JSON.stringify(problem.toJSON());
    socket.end(
      `HTTP/1.1 ${problem.status} ${STATUS_CODES[problem.status]}\r\nConnection: close\r\n` +
        `Content-Type: application/problem+json\r\nContent-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`,
    );
  },
} satisfies FastifyServerOptions;

import type { FastifyReply, FastifyRequest } from 'fastify';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { refuseOtherSites } from '../../platform/http/sign-in.ts';
import { clearBookCookies, SAMPLE_COOKIE, tellBook } from './choose-book.ts';
import { FirstLook, SampleReply } from './samples.schema.ts';
import { SAMPLE_SIGN_IN, type SampleService } from './samples.service.ts';

export const sampleRoutes: FastifyPluginAsyncZod<{ samples: SampleService }> = async (app, { samples }) => {
  const start = (request: FastifyRequest, reply: FastifyReply) => {
    const secret = samples.start(request.cookies[SAMPLE_COOKIE], (error) =>
      request.log.error({ err: error }, 'no sample was made'),
    );
    reply.setCookie(SAMPLE_COOKIE, secret, { path: '/', httpOnly: true, sameSite: 'lax', secure: request.protocol === 'https' });
    reply.code(202);
    return current(request, reply, secret);
  };
  const current = (request: FastifyRequest, reply: FastifyReply, secret: string | undefined): z.infer<typeof SampleReply> => {
    const sample = samples.find(secret);
    if (sample?.state === 'ready') tellBook(reply, sample.name);
    return {
      state: sample?.state ?? 'none',
      step: sample?.step ?? null,
      start: samples.startFor(isHere(request)),
      signIn: sample?.state === 'ready' ? { ...SAMPLE_SIGN_IN, names: [...SAMPLE_SIGN_IN.names] } : null,
    };
  };

  app.post(
    '/',
    {
      schema: {
        tags: ['samples'],
        summary: 'Begin to make a sample studio to look round in',
        description:
          'An invented studio in a book of its own, for this browser alone: a cookie leads to it. Nothing of the studio’s own book is read or written. Its making takes some seconds to a minute; once it is ready, whatever this browser asks is answered from the sample, until it leaves it. A page says with the header "Book" which book it means, and is refused (other-book) when that is not the one that is open. A sample is kept in memory alone: it is gone when it is left, after half a day unused, and when the server ends; at most two are open at once, and a third takes the place of the one that was longest unused.',
        response: { 202: SampleReply, ...problemReplies },
      },
    },
    async (request, reply) => start(request, reply),
  );

  app.post(
    '/first-look',
    {
      config: { rateLimit: { max: 10, timeWindow: '1 minute' } },
      schema: {
        tags: ['samples'],
        summary: 'The same, before there is an owner',
        description: 'For who could make the first owner: on the machine of the server itself, or with the one-time code.',
        body: FirstLook,
        response: { 202: SampleReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      refuseOtherSites(request);
      samples.holdToFirstLook(isHere(request), request.body.code);
      return start(request, reply);
    },
  );

  app.get(
    '/current',
    {
      schema: {
        tags: ['samples'],
        summary: 'How far the sample of this browser is, and whose word opens one',
        response: { 200: SampleReply, ...problemReplies },
      },
    },
    async (request, reply) => current(request, reply, request.cookies[SAMPLE_COOKIE]),
  );

  app.delete(
    '/current',
    {
      schema: {
        tags: ['samples'],
        summary: 'Leave the sample of this browser, or its making: it is removed',
        response: { 204: z.null(), ...problemReplies },
      },
    },
    async (request, reply) => {
      refuseOtherSites(request);
      const secret = request.cookies[SAMPLE_COOKIE];
      if (secret !== undefined) await samples.end(secret);
      clearBookCookies(reply);
      reply.code(204);
      return null;
    },
  );
};

const HERE = /^(::1|127\.\d+\.\d+\.\d+|::ffff:127\.\d+\.\d+\.\d+)$/;
const NAMES_OF_HERE = /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])$/;

/** At the machine itself: not through a server in front, and not by another name that was made to lead here. */
function isHere({ ip, hostname, headers }: FastifyRequest): boolean {
  return (
    HERE.test(ip) && NAMES_OF_HERE.test(hostname) && headers.forwarded === undefined && headers['x-forwarded-for'] === undefined
  );
}

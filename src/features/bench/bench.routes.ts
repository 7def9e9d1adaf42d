import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { BenchNowQuery, BenchNowReply } from './bench-now.schema.ts';
import type { BenchNowService } from './bench-now.service.ts';
import { NewSteps, StepsReply } from './bench-steps.schema.ts';
import type { BenchStepService } from './bench-steps.service.ts';

interface Needs {
  benchNow: BenchNowService;
  benchSteps: BenchStepService;
}

export const benchRoutes: FastifyPluginAsyncZod<Needs> = async (app, { benchNow, benchSteps }) => {
  app.get(
    '/now',
    {
      schema: {
        tags: ['bench'],
        summary: 'The next step of the person asking, with all they need to know for it',
        description:
          'The heat in hand; else that of the running timer or its piece; else the only one there is. What is dangerous not to know is in it, to be kept on the device.',
        querystring: BenchNowQuery,
        response: { 200: BenchNowReply, ...problemReplies },
      },
    },
    async (request) => benchNow.now(actorOf(request), request.query.heatId),
  );

  app.post(
    '/steps',
    {
      schema: {
        tags: ['bench'],
        summary: 'Steps that a device noted at the bench, each answered by itself',
        description:
          'May come late, out of order and twice: steps of a device are taken by its deviceSeq, each once for its key. A step whose from no longer holds is answered 409 with what holds now, and does not stop the others. Inside ten minutes a step is taken back by another that undoes it: a reversing move, never a deletion.',
        body: NewSteps,
        response: { 200: StepsReply, ...problemReplies },
      },
    },
    async (request) => benchSteps.take(actorOf(request), request.body),
  );
};

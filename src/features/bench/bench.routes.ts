import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { NewSteps, StepsReply } from './bench-steps.schema.ts';
import type { BenchStepService } from './bench-steps.service.ts';

export const benchRoutes: FastifyPluginAsyncZod<{ benchSteps: BenchStepService }> = async (app, { benchSteps }) => {
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

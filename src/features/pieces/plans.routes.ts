import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import type { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { goneSignal } from '../../platform/http/gone.ts';
import { answerKept, once } from '../../platform/http/idempotency.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { PlanWhatIfReply } from '../calculations/index.ts';
import { PieceParams } from './pieces.schema.ts';
import { NewPlan, PlanMove, PlanParams, PlanReply, PlanWhatIf } from './plans.schema.ts';
import type { PlanService } from './plans.service.ts';

interface Needs {
  platform: Platform;
  plans: PlanService;
}

const tags = ['plans'];

/** Plans of one piece, under /pieces. */
export const piecePlanRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, plans }) => {
  app.post(
    '/:id/plans',
    {
      schema: {
        tags,
        summary: 'Plan the heats of a piece: by hand, or the best that is found',
        description:
          'A new draft, checked at once, from the true state of the joints: sound ones stay as they are with the solder really used, moved and open ones are made. So the same call plans again after a spoilt heat.',
        params: PieceParams,
        body: NewPlan,
        response: { 201: PlanReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const kept = answerKept(platform.db, { request, reply });
      if (kept !== undefined) return kept as z.infer<typeof PlanReply>;
      const draft = await plans.draft(actorOf(request), request.params.id, request.body, goneSignal(reply));
      const plan = once(platform, { request, reply, status: 201 }, () => plans.keep(actorOf(request), draft));
      sendVersion(reply, plan.version);
      return plan;
    },
  );

  app.get(
    '/:id/plans',
    {
      schema: {
        tags,
        summary: 'The plan versions of a piece, newest first',
        params: PieceParams,
        querystring: PageQuery,
        response: { 200: pageReply(PlanReply), ...problemReplies },
      },
    },
    async (request) => plans.list(actorOf(request), request.params.id, request.query),
  );
};

/** Plans by their own id, under /plans. */
export const planRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, plans }) => {
  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One plan version, with its check',
        params: PlanParams,
        response: { 200: PlanReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const plan = plans.get(actorOf(request), request.params.id);
      sendVersion(reply, plan.version);
      return plan;
    },
  );

  app.post(
    '/:id/check',
    {
      schema: {
        tags,
        summary: 'Check a plan again with today’s stock and settings',
        description: 'A draft keeps the answer, and follows the design and the joints of today. Later versions never change.',
        params: PlanParams,
        response: { 200: PlanReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const plan = await plans.checkAgain(actorOf(request), request.params.id);
      sendVersion(reply, plan.version);
      return plan;
    },
  );

  app.post(
    '/:id/what-if',
    {
      schema: {
        tags,
        summary: 'What edits of a plan version would change; nothing is kept',
        description:
          'Against the joints, bench and solders that it was made with. An edit that cannot be made, or that breaks a rule, is refused at /edits.',
        params: PlanParams,
        body: PlanWhatIf,
        response: { 200: PlanWhatIfReply, ...problemReplies },
      },
    },
    async (request) => plans.whatIf(request.params.id, request.body.edits),
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Move a plan version along its life cycle',
        description:
          'Into use: the version before is replaced, what is left of its heats is skipped, new heats are laid out, and a hurt piece goes back to soldering.',
        params: PlanParams,
        body: PlanMove,
        response: { 200: PlanReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const plan = once(platform, { request, reply, status: 200, needed: true }, () =>
        plans.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, plan.version);
      return plan;
    },
  );
};

import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import type { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { goneSignal } from '../../platform/http/gone.ts';
import { answerKept, once } from '../../platform/http/idempotency.ts';
import { PageQuery, pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { PlanWhatIfReply } from '../calculations/index.ts';
import { GuessBook, GuessesReply, NewGuesses } from './guesses.schema.ts';
import type { GuessService } from './guesses.service.ts';
import { PieceParams } from './pieces.schema.ts';
import { NewPlan, PlanChange, PlanMove, PlanParams, PlanReply, PlanWhatIf } from './plans.schema.ts';
import type { PlanService } from './plans.service.ts';

interface Needs {
  platform: Platform;
  plans: PlanService;
}

interface NeedsGuesses extends Needs {
  guesses: GuessService;
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
      const plan = once(platform, { request, reply, status: 201 }, () => plans.keep(actorOf(request), draft, request.body.after));
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
export const planRoutes: FastifyPluginAsyncZod<NeedsGuesses> = async (app, { platform, plans, guesses }) => {
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

  app.put(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Write the heats of a draft anew; it is checked at once',
        description:
          'With If-Match. When somebody else has changed it since, 412 says heat by heat in what the two plans differ, and what may be done with yours. Later versions never change.',
        params: PlanParams,
        body: PlanChange,
        response: { 200: PlanReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const plan = await plans.rewrite(actorOf(request), request.params.id, versionSeen(request), request.body);
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
    async (request) => plans.whatIf(actorOf(request), request.params.id, request.body.edits),
  );

  app.post(
    '/:id/guesses',
    {
      schema: {
        tags,
        summary: 'A student says what the earlier joints of a heat will do, and is told the answer beside it',
        description:
          'Before that nothing of theirs is told to them: neither in the plan nor in its heats, nor at the bench. Every earlier joint in the fire, each once; when the heat was lit it is too late.',
        params: PlanParams,
        body: NewGuesses,
        response: { 201: GuessesReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () => guesses.add(actorOf(request), request.params.id, request.body)),
  );

  app.get(
    '/:id/guesses',
    {
      schema: {
        tags,
        summary: "What was guessed of a plan: a student's own, for a tutor everybody's",
        params: PlanParams,
        response: { 200: GuessBook, ...problemReplies },
      },
    },
    async (request) => guesses.list(actorOf(request), request.params.id),
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

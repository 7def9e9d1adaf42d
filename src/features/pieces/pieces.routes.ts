import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { once } from '../../platform/http/idempotency.ts';
import { pageReply } from '../../platform/http/paging.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { sendVersion, versionSeen } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { CadmiumFinding, JointMove, JointParams, JointReply } from './joints.schema.ts';
import type { JointService } from './joints.service.ts';
import { NewPiece, PieceChange, PieceMove, PieceParams, PieceQuery, PieceReply, PieceSummary } from './pieces.schema.ts';
import type { PieceService } from './pieces.service.ts';

interface Needs {
  platform: Platform;
  pieces: PieceService;
  joints: JointService;
}

export const pieceRoutes: FastifyPluginAsyncZod<Needs> = async (app, { platform, pieces, joints }) => {
  const tags = ['pieces'];

  app.post(
    '/',
    {
      schema: {
        tags,
        summary: 'Lay out a piece of a commission',
        description:
          'The first of a repair that points to a piece of ours starts as that one left: by its design, with the solder really in its joints.',
        body: NewPiece,
        response: { 201: PieceReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const piece = once(platform, { request, reply, status: 201 }, () => pieces.add(actorOf(request), request.body));
      sendVersion(reply, piece.version);
      return piece;
    },
  );

  app.get(
    '/',
    {
      schema: {
        tags,
        summary: 'Pieces, newest first',
        querystring: PieceQuery,
        response: { 200: pageReply(PieceSummary), ...problemReplies },
      },
    },
    async (request) => pieces.list(actorOf(request), request.query),
  );

  app.get(
    '/:id',
    {
      schema: {
        tags,
        summary: 'One piece, with its joints as they are and every solder that has run in it',
        params: PieceParams,
        response: { 200: PieceReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const piece = pieces.get(actorOf(request), request.params.id);
      sendVersion(reply, piece.version);
      return piece;
    },
  );

  app.patch(
    '/:id',
    {
      schema: {
        tags,
        summary: 'Change the title of a piece, or say where it is; "unknown" opens an incident',
        params: PieceParams,
        body: PieceChange,
        response: { 200: PieceReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const piece = pieces.change(actorOf(request), request.params.id, versionSeen(request), request.body);
      sendVersion(reply, piece.version);
      return piece;
    },
  );

  app.post(
    '/:id/moves',
    {
      schema: {
        tags,
        summary: 'Move a piece along its life cycle',
        description:
          'To soldering it goes by itself, with its first primed heat, and when hurt with the plan that is made from its true state. What a move needs besides is in the body; what is missing is told all at once.',
        params: PieceParams,
        body: PieceMove,
        response: { 200: PieceReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const piece = once(platform, { request, reply, status: 200, needed: true }, () =>
        pieces.move(actorOf(request), request.params.id, request.body),
      );
      sendVersion(reply, piece.version);
      return piece;
    },
  );

  app.post(
    '/:id/joints/:jointId/moves',
    {
      schema: {
        tags,
        summary: 'Say what was seen of a joint: looked at and good, moved, cleaned and refitted, opened on purpose',
        params: JointParams,
        body: JointMove,
        response: { 200: JointReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 200, needed: true }, () =>
        joints.move(actorOf(request), request.params.id, request.params.jointId, request.body),
      ),
  );

  app.post(
    '/:id/joints/:jointId/cadmium-documents',
    {
      schema: {
        tags,
        summary: 'Settle with a document whether an existing joint holds cadmium',
        description: 'A supplier’s sheet or a laboratory analysis; a bench test never settles it.',
        params: JointParams,
        body: CadmiumFinding,
        response: { 201: JointReply, ...problemReplies },
      },
    },
    async (request, reply) =>
      once(platform, { request, reply, status: 201 }, () =>
        joints.addCadmiumDocument(actorOf(request), request.params.id, request.params.jointId, request.body),
      ),
  );
};

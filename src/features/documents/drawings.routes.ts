import type { FastifyReply } from 'fastify';
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { designFaults } from '../../../shared/design/design-faults.ts';
import type { Design } from '../../../shared/design/design.ts';
import { drawDesign, type DrawingOptions } from '../../../shared/drawing/draw-design.ts';
import { actorOf } from '../../platform/http/actor.ts';
import { invalidFields, notFound, Problem } from '../../platform/http/problem.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { lineOfText } from '../../platform/http/text.ts';
import { sendVersion } from '../../platform/http/versions.ts';
import type { Platform } from '../../platform/platform.ts';
import { DesignSchema, knownDesign } from '../calculations/index.ts';
import { currentDesign, getPiece, knowsPiece } from '../pieces/index.ts';

const drawingReply = {
  description: 'SVG in black lines, to scale, with a viewBox and no size of its own',
  content: { 'image/svg+xml': { schema: z.string() } },
};
const LABELS = 'Joints are numbered in the order of the design; without labels it has lines and a scale bar alone.';

export const pieceDrawingRoutes: FastifyPluginAsyncZod<{ platform: Platform }> = async (app, { platform: { db } }) => {
  app.get(
    '/:id/drawing',
    {
      schema: {
        tags: ['pieces'],
        summary: 'The design of a piece as a drawing',
        description: LABELS,
        params: z.strictObject({ id: z.uuid() }),
        querystring: z.strictObject({ labels: z.enum(['yes', 'no']).default('yes') }),
        response: { 200: drawingReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!knowsPiece(db, actorOf(request), id)) throw notFound('piece', id);
      const { number, title } = getPiece(db, id);
      const design = currentDesign(db, id);
      if (!design) throw new Problem('not-found', `Cannot draw ${number}: it has no design yet`);
      sendVersion(reply, design.number);
      return sendDrawing(reply, design.body, { title: `${number} ${title}`, labelled: request.query.labels === 'yes' });
    },
  );
};

export const drawingCalculationRoutes: FastifyPluginAsyncZod<{ platform: Platform }> = async (app, { platform: { db } }) => {
  app.post(
    '/drawing',
    {
      schema: {
        tags: ['calculations'],
        summary: 'A design as a drawing; nothing is kept',
        description: LABELS,
        body: z.strictObject({
          design: DesignSchema,
          title: lineOfText(120).default('A piece').describe('For those who have it read to them.'),
          labels: z.boolean().default(true),
        }),
        response: { 200: drawingReply, ...problemReplies },
      },
    },
    async ({ body: { design, title, labels } }, reply) => {
      const known = knownDesign(db, design);
      const faults = designFaults(known);
      if (faults.length > 0) throw invalidFields(faults.map((fault) => ({ ...fault, pointer: `/design${fault.pointer}` })));
      return sendDrawing(reply, known, { title, labelled: labels });
    },
  );
};

function sendDrawing(
  reply: FastifyReply,
  design: Design,
  { title, labelled }: Required<Pick<DrawingOptions, 'labelled'>> & { title: string },
): string {
  const parts = design.parts.map(({ id, name }) => name ?? id).join(', ');
  const joints = design.joints.map(({ id, name }, index) => `${index + 1} ${name ?? id}`).join(', ');
  reply.type('image/svg+xml; charset=utf-8');
  // Opened by itself it is a document, and may do nothing.
  reply.header('content-security-policy', "default-src 'none'; frame-ancestors 'none'");
  const description = `Parts: ${parts}.${joints === '' ? '' : ` Joints: ${joints}.`}`;
  return drawDesign(design, { words: { title, description }, labelled });
}

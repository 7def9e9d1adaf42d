import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { actorOf } from '../../platform/http/actor.ts';
import { invalidFields } from '../../platform/http/problem.ts';
import { originOf } from '../../platform/http/origin-of.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { disposition, paperReply, sendPrivately } from '../documents/index.ts';
import type { LabelRun } from './label-run.ts';
import { LabelParams, LabelQuery } from './labels.schema.ts';
import type { LabelKind, LabelService } from './labels.service.ts';

const LABELS: readonly { kind: LabelKind; summary: string; says: string }[] = [
  {
    kind: 'solder-lots',
    summary: 'The label of a lot of solder, with a square that leads to it',
    says: 'Its product, mark, two temperatures, number, use-by and cadmium; 30 × 15 mm where nothing else is asked for.',
  },
  {
    kind: 'pickle-baths',
    summary: 'The label of a pickle bath, with a square that leads to it',
    says: 'Its acid, since when, and that no iron goes in; 60 × 30 mm where nothing else is asked for.',
  },
  {
    kind: 'pieces',
    summary: 'The tag of a piece, with a square that leads to it',
    says: 'Its number, that of its commission and when it is due, and nothing of whose it is; 40 × 20 mm where nothing else is asked for.',
  },
];

/** Finer than this neither a scanner nor a printer of labels (8 dots a mm) can do. */
const LEAST_MODULE_MM = 0.25;

export const labelRoutes: FastifyPluginAsyncZod<{ labels: LabelService }> = async (app, { labels }) => {
  for (const { kind, summary, says } of LABELS) {
    app.get(
      `/${kind}/:id`,
      {
        schema: {
          tags: ['documents'],
          summary,
          description: `${says} Black on white. The square (ISO/IEC 18004) holds the address of the thing in this book: that of the setting bookAddress, else the one this was asked at.`,
          params: LabelParams,
          querystring: LabelQuery,
          response: { 200: paperReply, ...problemReplies },
        },
      },
      async (request, reply) => {
        const { query, params } = request;
        const printed = labels.run(kind, { actor: actorOf(request), id: params.id, query, origin: originOf(request) });
        await holdReadable(printed.run);
        if (query.format === 'html') {
          const { labelPage } = await import('./label-page.ts');
          const { html, policy } = labelPage(printed);
          sendPrivately(reply, policy).type('text/html; charset=utf-8');
          return html;
        }
        const { labelPdf } = await import('./label-pdf.ts');
        sendPrivately(reply, "default-src 'none'")
          .type('application/pdf')
          .header('content-disposition', disposition(printed.title));
        return labelPdf(printed);
      },
    );
  }
};

async function holdReadable({ labels, size }: LabelRun): Promise<void> {
  const { moduleMm } = await import('./label-svg.ts');
  const addresses = new Set(labels.map(({ address }) => address));
  const finest = Math.min(...[...addresses].map((address) => moduleMm(address, size)));
  if (finest >= LEAST_MODULE_MM) return;
  const needed = Math.ceil((Math.min(size.heightMm, size.widthMm) * LEAST_MODULE_MM) / finest);
  throw invalidFields([
    {
      pointer: '?heightMm',
      detail: `The square would be too fine to read, ${finest.toFixed(2)} mm a module: make the label ${needed} mm high or more, and twice as wide.`,
      given: size.heightMm,
    },
  ]);
}

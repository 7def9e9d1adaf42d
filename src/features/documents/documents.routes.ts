import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { DocumentService } from './documents.service.ts';
import { PaperQuery, paperReply, sendPaper } from './send-paper.ts';

const Params = z.strictObject({ id: z.uuid() });

/** Each paper, and what its id is of. */
const PAPERS: readonly { kind: keyof DocumentService; summary: string; of: string }[] = [
  {
    kind: 'quote-letters',
    summary: 'The letter of a version of a quote, without a line of what it costs us',
    of: 'Of a quote version. Once it was sent it stays as it was, word for word.',
  },
  { kind: 'payment-receipts', summary: 'The receipt for a deposit or another payment', of: 'Of a payment.' },
  {
    kind: 'bills',
    summary: 'The bill of a commission: what was agreed, paid and is left',
    of: 'Of a commission with an accepted version.',
  },
  { kind: 'balance-reminders', summary: 'A reminder of what is left to pay', of: 'Of a commission that owes something.' },
  { kind: 'collection-notices', summary: 'That the work is ready to collect', of: 'Of a commission that is made.' },
  { kind: 'take-in-receipts', summary: 'A receipt for what the client left with us', of: 'Of a commission.' },
  { kind: 'care-cards', summary: 'How to look after a piece, and what a jeweller has to know of it', of: 'Of a piece.' },
];

export const documentRoutes: FastifyPluginAsyncZod<{ documents: DocumentService }> = async (app, { documents }) => {
  for (const { kind, summary, of } of PAPERS) {
    app.get(
      `/${kind}/:id`,
      {
        schema: {
          tags: ['documents'],
          summary,
          description: `${of} In the client’s language, on the paper of the settings; nothing is sent to anybody.`,
          params: Params,
          querystring: PaperQuery,
          response: { 200: paperReply, ...problemReplies },
        },
      },
      async (request, reply) => sendPaper(reply, documents[kind](request.params.id), request.query.format),
    );
  }
};

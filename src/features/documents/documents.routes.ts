import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import type { DocumentService } from './documents.service.ts';
import { PaperQuery, paperReply, sendPaper } from './send-paper.ts';

const Params = z.strictObject({ id: z.uuid() });

type Kind = Exclude<keyof DocumentService, 'reorderList' | 'recoveryForm'>;

/** Each paper, and what its id is of. */
const PAPERS: readonly { kind: Kind; summary: string; of: string; language?: string }[] = [
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
  {
    kind: 'packet-lists',
    summary: 'What lies in a packet for an assay office, to go with it',
    of: 'Of a hallmark packet.',
    language: 'the studio’s language',
  },
  {
    kind: 'stocktake-sheets',
    summary: 'The lots of a stocktake with room to write what they weigh; blind',
    of: 'Of a stocktake; nothing of what the book says is there is on it.',
    language: 'the studio’s language',
  },
];

export const documentRoutes: FastifyPluginAsyncZod<{ documents: DocumentService }> = async (app, { documents }) => {
  app.get(
    '/reorder-list',
    {
      schema: {
        tags: ['documents'],
        summary: 'What to order, a table a supplier, to take along or to read out',
        description: 'In the studio’s language, on the paper of the settings; nothing is ordered by it.',
        querystring: PaperQuery,
        response: { 200: paperReply, ...problemReplies },
      },
    },
    async (request, reply) => sendPaper(reply, documents.reorderList(), request.query.format),
  );
  app.get(
    '/recovery-form',
    {
      schema: {
        tags: ['documents'],
        summary: 'The key of the backups, to print and keep apart from them',
        description: 'In the studio’s language, on the paper of the settings. The journal notes who was shown it.',
        querystring: PaperQuery,
        response: { 200: paperReply, ...problemReplies },
      },
    },
    async (request, reply) => {
      reply.header('cache-control', 'no-store');
      return sendPaper(reply, await documents.recoveryForm(actorOf(request)), request.query.format);
    },
  );
  for (const { kind, summary, of, language = 'the client’s language' } of PAPERS) {
    app.get(
      `/${kind}/:id`,
      {
        schema: {
          tags: ['documents'],
          summary,
          description: `${of} In ${language}, on the paper of the settings; nothing is sent to anybody.`,
          params: Params,
          querystring: PaperQuery,
          response: { 200: paperReply, ...problemReplies },
        },
      },
      async (request, reply) => sendPaper(reply, documents[kind](request.params.id), request.query.format),
    );
  }
};

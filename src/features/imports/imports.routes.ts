import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod';
import { z } from 'zod';
import { actorOf } from '../../platform/http/actor.ts';
import { sendCsv } from '../../platform/http/csv.ts';
import { once, type Once } from '../../platform/http/idempotency.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { problemReplies } from '../../platform/http/problem-handler.ts';
import { ImportListsReply, ImportQuery, ImportReply } from './imports.schema.ts';
import type { ImportService } from './imports.service.ts';
import type { ListName } from './list-kind.ts';

const LISTS: readonly { name: ListName; of: string }[] = [
  { name: 'suppliers', of: 'Suppliers' },
  { name: 'clients', of: 'Clients' },
  { name: 'solder-products', of: 'Solders' },
  { name: 'solder-lots', of: 'Lots of solder, with what they hold now' },
  { name: 'metal-products', of: 'Metal that is bought' },
  { name: 'metal-lots', of: 'Lots of our own metal, with what they hold now' },
];

const HOW =
  'CSV (RFC 4180) in UTF-8, with commas or semicolons between its fields, up to 500 rows; the names of its columns are in GET /imports. A row whose key is there already is left as it is, so the same table can be sent again.';

export const importRoutes: FastifyPluginAsyncZod<{ imports: ImportService; platform: Once }> = async (
  app,
  { imports, platform },
) => {
  // Tables of text alone: JSON would be taken for one.
  app.removeAllContentTypeParsers();
  app.addContentTypeParser('text/csv', { parseAs: 'buffer' }, async (_request: unknown, bytes: Buffer) => textOf(bytes));
  app.addContentTypeParser('*', async () => {
    throw new Problem('wrong-media-type', 'Send the table as text/csv');
  });

  app.get(
    '/',
    {
      schema: {
        tags: ['imports'],
        summary: 'The lists that can be brought in from a table, and the names of their columns',
        response: { 200: ImportListsReply, ...problemReplies },
      },
    },
    async () => imports.lists(),
  );

  for (const { name, of } of LISTS) {
    app.post(
      `/${name}`,
      {
        schema: {
          tags: ['imports'],
          summary: `${of} from a table of text; a dry run says row by row what would happen`,
          description: HOW,
          consumes: ['text/csv'],
          querystring: ImportQuery,
          body: z.string().describe('The table.'),
          response: {
            200: ImportReply.describe('What would happen.'),
            201: ImportReply.describe('What happened.'),
            ...problemReplies,
          },
        },
      },
      async (request, reply) => {
        const asked = { actor: actorOf(request), text: request.body, ...request.query };
        if (request.query.run === 'dry') return imports.take(name, asked);
        return once(platform, { request, reply, status: 201 }, () => imports.take(name, asked));
      },
    );
  }
};

export const listExportRoutes: FastifyPluginAsyncZod<{ imports: ImportService }> = async (app, { imports }) => {
  for (const { name, of } of LISTS) {
    app.get(
      `/${name}`,
      {
        schema: {
          tags: ['imports'],
          summary: `${of} as a table of text that can be brought in again`,
          description: 'CSV (RFC 4180) in UTF-8. Words that a spreadsheet would take for a formula begin with an apostrophe.',
          response: {
            200: { description: 'The table', content: { 'text/csv': { schema: z.string() } } },
            ...problemReplies,
          },
        },
      },
      async (_request, reply) => sendCsv(reply.header('cache-control', 'no-store'), name, imports.write(name)),
    );
  }
};

function textOf(bytes: Buffer): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw invalidFields([{ pointer: '', detail: 'It is not UTF-8: save the table as CSV UTF-8.' }]);
  }
}

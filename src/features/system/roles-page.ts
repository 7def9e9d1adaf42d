import type { FastifyPluginAsync } from 'fastify';
import { ACCESS } from '../../platform/http/access.ts';
import { escapeHtml, htmlPage, htmlTable } from './html-page.ts';

/** The table of who may do what, as a page a person can read; made from the table the server obeys. */
export const rolesPage: FastifyPluginAsync = async (app) => {
  app.get('/docs/roles', { schema: { hide: true } }, async (_request, reply) => {
    reply.type('text/html; charset=utf-8');
    const rows = Object.entries(ACCESS).map(([route, access]) => [`<code>${escapeHtml(route)}</code>`, words(access)]);
    return htmlPage(
      'Who may do what',
      `<p>Paths begin with <code>/api/v1</code>. The owner may do everything that another role may; a bench hand everything that a student may.</p>
${htmlTable(['Call', 'For'], rows)}`,
    );
  });
};

function words(access: 'open' | 'anyone' | readonly string[]): string {
  if (access === 'open') return 'everybody, without sign-in';
  if (access === 'anyone') return 'anyone signed in';
  return access.join(', ');
}

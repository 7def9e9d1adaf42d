import type { FastifyPluginAsync } from 'fastify';
import { ACCESS } from '../../platform/http/access.ts';

/** The table of who may do what, as a page a person can read; made from the table the server obeys. */
export const rolesPage: FastifyPluginAsync = async (app) => {
  app.get('/docs/roles', { schema: { hide: true } }, async (_request, reply) => {
    reply.type('text/html; charset=utf-8');
    const rows = Object.entries(ACCESS).map(
      ([route, access]) => `<tr><td><code>${route}</code></td><td>${words(access)}</td></tr>`,
    );
    return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>Who may do what – Hearthbook</title>
<style>
  :root { color-scheme: light dark }
  body { font: 1rem/1.5 system-ui, sans-serif; margin: 1rem auto; max-width: 50rem; padding: 0 1rem }
  table { border-collapse: collapse; width: 100% }
  th { text-align: left }
  th, td { border-bottom: 1px solid #8886; padding: .35rem .75rem .35rem 0; vertical-align: top }
  td:first-child { width: 62%; overflow-wrap: anywhere }
</style>
<h1>Who may do what</h1>
<p>Paths begin with <code>/api/v1</code>. The owner may do everything that another role may; a bench hand everything that a student may.</p>
<table>
<thead><tr><th scope="col">Call</th><th scope="col">For</th></tr></thead>
<tbody>
${rows.join('\n')}
</tbody>
</table>
</html>
`;
  });
};

function words(access: 'open' | 'anyone' | readonly string[]): string {
  if (access === 'open') return 'everybody, without sign-in';
  if (access === 'anyone') return 'anyone signed in';
  return access.join(', ');
}

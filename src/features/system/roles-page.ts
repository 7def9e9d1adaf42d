import type { FastifyPluginAsync } from 'fastify';
import { escapeMarkup } from '../../../shared/drawing/svg-text.ts';
import { LIFECYCLES, type Lifecycle } from '../../../shared/lifecycles/lifecycles.ts';
import { ACCESS, type Access } from '../../platform/http/access-table.ts';
import { finerRulesOf } from '../../platform/http/finer-rules.ts';
import { htmlPage, htmlTable } from './html-page.ts';

/** The tables of who may do what, as a page a person can read; made from the tables the server obeys. */
export const rolesPage: FastifyPluginAsync = async (app) => {
  app.get('/docs/roles', { schema: { hide: true } }, async (_request, reply) => {
    reply.type('text/html; charset=utf-8');
    return PAGE;
  });
};

const calls = Object.entries<Access>(ACCESS).map(([route, access]) => [
  // May break after a slash, so that the table fits a narrow page.
  `<code>${escapeMarkup(route).replaceAll('/', '/<wbr>')}</code>`,
  words(access),
  escapeMarkup(finerRulesOf(route).join(' ')),
]);

const lives = Object.entries<Lifecycle>(LIFECYCLES).map(
  ([thing, { moves }]) => `<h3>${inWords(thing)}</h3>
${htmlTable(
  ['From', 'To', 'For', 'Only if'],
  moves.map(({ from, to, who, onlyIf }) => [
    from.map(inWords).join(', '),
    inWords(to),
    who.join(', '),
    escapeMarkup(onlyIf ?? ''),
  ]),
)}`,
);

const PAGE = htmlPage(
  'Who may do what',
  `<p>The owner may do everything that another role may; a bench hand everything that a student may. Somebody may have several roles; <em>tutor</em> is
a mark that an owner or bench hand carries. By a PIN, at a shared tablet, everybody may do the work of bench or student at most.</p>
<h2>Calls</h2>
<p>Paths begin with <code>/api/v1</code>.</p>
${htmlTable(['Call', 'For', 'Besides'], calls)}
<h2>Moves</h2>
<p><em>Person</em> is whose record it is, <em>client</em> whoever holds the private link; <em>clock</em> and <em>system</em> are the server itself.</p>
${lives.join('\n')}`,
);

function words(access: Access): string {
  if (access === 'open') return 'everybody, without sign-in';
  if (access === 'anyone') return 'anyone signed in';
  if (access === 'not_by_pin') return 'anyone signed in, but not by a PIN alone, nor by a token for less than its person may';
  return access.join(', ');
}

function inWords(name: string): string {
  return name.replaceAll('_', ' ');
}

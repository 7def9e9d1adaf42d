import type { FastifyInstance } from 'fastify';
import type { Role } from '../db/json-columns.ts';
import { ACCESS, type Access } from './access-table.ts';
import { effectiveRoles } from './actor.ts';

const ROLES: readonly Role[] = ['owner', 'bench', 'desk', 'student'];
const PREFIX = '/api/v1';
const table: Readonly<Record<string, Access>> = ACCESS;

/** What the table says of a route; undefined for one outside the API (documentation, the page's files). */
export function accessOf(method: string, url: string): Access | undefined {
  // Asking for the headers alone is for whoever may read.
  return url.startsWith(PREFIX) ? table[`${method === 'HEAD' ? 'GET' : method} ${url.slice(PREFIX.length)}`] : 'open';
}

/** Every role that a line of the table lets in, those that include one of its own among them. */
export function rolesLetIn(access: readonly Role[]): Role[] {
  return ROLES.filter((role) => [...effectiveRoles([role])].some((one) => access.includes(one)));
}

/** Holds table and routes equal. Call it before any route is registered. */
export function holdRoutesToAccessTable(app: FastifyInstance): void {
  const seen = new Set<string>();
  app.addHook('onRoute', ({ method, url }) => {
    for (const one of [method].flat()) {
      if (one === 'HEAD' || one === 'OPTIONS' || !url.startsWith(PREFIX)) continue;
      if (accessOf(one, url) === undefined) throw new Error(`The route ${one} ${url} is not in the access table`);
      seen.add(`${one} ${url.slice(PREFIX.length)}`);
    }
  });
  app.addHook('onReady', async () => {
    const missing = Object.keys(table).filter((line) => !seen.has(line));
    if (missing.length > 0) throw new Error(`The access table names routes that do not exist: ${missing.join(', ')}`);
  });
}

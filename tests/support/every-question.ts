import type { FastifyInstance } from 'fastify';
import { ReportName } from '../../src/features/reports/reports.schema.ts';
import { operationsOf, type ApiDocument, type Operation } from './api-document.ts';

export interface Question {
  /** As in the access table, with what is asked for. */
  name: string;
  path: string;
}

export type Ask = (path: string) => Promise<{ status: number; body: unknown }>;

/** Asks in the process, as whom the token is of. */
export function asker(http: FastifyInstance, token: string): Ask {
  return async (path) => {
    const reply = await http.inject({ url: path, headers: { authorization: `Bearer ${token}` } });
    return { status: reply.statusCode, body: reply.headers['content-type']?.includes('json') ? reply.json() : reply.body };
  };
}

/** What a search is asked for: one that many lines have, one that few have, one of two words. */
const SEARCHED = ['ring', 'Saltmarsh', 'birthday ring'];
/** Of other people's machines, files or moments. */
const NOT_ASKED = new Set(['GET /openapi.json', 'GET /metrics', 'GET /problems/:slug', 'GET /reports/:name']);

/**
 * Everything that can be read of a book by the API: each list as it is and by each of its filters, each single thing by the newest there
 * is, searches, and each report over a period.
 *
 * @param document of the same server
 * @param period days, ISO 8601
 */
export async function everyQuestion(ask: Ask, document: ApiDocument, period: { from: string; to: string }): Promise<Question[]> {
  const reads = operationsOf(document).filter(({ route, method }) => method === 'GET' && !NOT_ASKED.has(route));
  const ids = await newestIds(ask, reads);
  const days = `from=${period.from}&to=${period.to}`;
  const asked = reads.flatMap((operation) => {
    const path = pathOf(operation, ids);
    if (path === undefined) return [];
    const needed = queryOf(operation, { ids, days });
    const plain = needed === '' ? path : `${path}?${needed}`;
    const filtered = filters(operation, ids).map((filter) => `${path}?${[needed, filter].filter(Boolean).join('&')}`);
    return [plain, ...filtered].map((one) => ({
      name: one.replaceAll(/[\da-f]{8}-[\da-f-]{27}/g, ':id'),
      path: `/api/v1${one}`,
    }));
  });
  const searches = SEARCHED.map((text) => `/search?text=${encodeURIComponent(text)}`);
  const reports = ReportName.options.map((name) => `/reports/${name}?${days}`);
  return [...asked, ...[...searches, ...reports].map((one) => ({ name: one, path: `/api/v1${one}` }))];
}

/** By the list they stand in: "/pieces" to the first id of its first page. */
async function newestIds(ask: Ask, reads: readonly Operation[]): Promise<Map<string, string>> {
  const ids = new Map<string, string>();
  for (const { path } of reads) {
    if (path.includes('{')) continue;
    const { status, body } = await ask(`/api/v1${path}`);
    const first = status === 200 ? ((body as { items?: { id?: string }[] }).items ?? [])[0]?.id : undefined;
    if (first !== undefined) ids.set(path, first);
  }
  return ids;
}

/** Papers and labels of things go by the things' own ids; undefined: there is none of them. */
const OF_OTHER_LISTS: Readonly<Record<string, string>> = {
  '/documents/quote-letters': '/quotes',
  '/documents/payment-receipts': '/payments',
  '/documents/bills': '/commissions',
  '/documents/balance-reminders': '/commissions',
  '/documents/collection-notices': '/commissions',
  '/documents/take-in-receipts': '/commissions',
  '/documents/care-cards': '/pieces',
  '/documents/bench-sheets': '/plans',
  '/documents/student-sheets': '/plans',
  '/documents/stocktake-sheets': '/stocktakes',
  '/documents/packet-lists': '/hallmark-packets',
  '/labels/solder-lots': '/solder-lots',
  '/labels/pickle-baths': '/pickle-baths',
  '/labels/pieces': '/pieces',
};

function pathOf({ path }: Operation, ids: ReadonlyMap<string, string>): string | undefined {
  if (!path.includes('{')) return path;
  const list = path.slice(0, path.indexOf('/{'));
  const id = ids.get(OF_OTHER_LISTS[list] ?? list);
  return id && path.replace(/\{\w+\}/, id);
}

function queryOf({ parameters, path }: Operation, { ids, days }: { ids: ReadonlyMap<string, string>; days: string }): string {
  if (path === '/search') return 'text=pendant';
  const names = new Set(parameters.filter(({ in: where }) => where === 'query').map(({ name }) => name));
  if (names.has('from') && names.has('to')) return days;
  return parameters
    .filter(({ in: where, required, name }) => where === 'query' && required && idFor(name, ids) !== undefined)
    .map(({ name }) => `${name}=${idFor(name, ids)!}`)
    .join('&');
}

/** Each value of what is one of some, and an id where there is one. */
function filters({ parameters }: Operation, ids: ReadonlyMap<string, string>): string[] {
  return parameters
    .filter(({ in: where, name, required }) => where === 'query' && !required && name !== 'cursor' && name !== 'format')
    .flatMap(({ name, schema }) => {
      const values = schema.enum ?? (schema.type === 'boolean' ? [true, false] : [idFor(name, ids)].filter(Boolean));
      return values.map((value) => `${name}=${encodeURIComponent(String(value))}`);
    });
}

/** "pieceId" goes by the list of pieces. */
function idFor(name: string, ids: ReadonlyMap<string, string>): string | undefined {
  if (!name.endsWith('Id')) return undefined;
  const thing = name.slice(0, -2).replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  return ids.get(
    { person: '/people', bench: '/benches', lot: '/solder-lots', product: '/solder-products' }[thing] ?? `/${thing}s`,
  );
}

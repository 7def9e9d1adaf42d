import { sql } from 'drizzle-orm';
import type { Operation } from './api-document.ts';
import type { TestApp } from './start-app.ts';

export interface Asked {
  method: string;
  /** Below /api/v1. */
  path: string;
  headers?: Readonly<Record<string, string>>;
  /** JSON, text of a table, or a form. */
  body?: unknown;
}

export interface Answer {
  status: number;
  headers: Readonly<Record<string, string>>;
  text: string;
}

let keys = 0;

/** Asks by a bearer token. Each write has a key of its own unless it brings one. */
export function asking({ baseUrl }: Pick<TestApp, 'baseUrl'>) {
  return async (token: string, { method, path, headers = {}, body }: Asked): Promise<Answer> => {
    const given: Record<string, string> = { authorization: `Bearer ${token}`, ...headers };
    if (method === 'POST') given['idempotency-key'] ??= `ask-as-${String((keys += 1)).padStart(6, '0')}`;
    if (body !== undefined && !(body instanceof FormData)) given['content-type'] ??= 'application/json';
    const sent = body instanceof FormData || typeof body === 'string' ? body : JSON.stringify(body);
    const answer = await fetch(`${baseUrl}/api/v1${path}`, {
      method,
      headers: given,
      redirect: 'manual',
      ...(body === undefined ? {} : { body: sent }),
    });
    return { status: answer.status, headers: Object.fromEntries(answer.headers), text: await answer.text() };
  };
}

/** What an answer says beside the ids it was asked by, and the time of day: for a thing that is there and one that is not it is to be the same. */
export function withoutIds({ status, headers, text }: Answer, ids: readonly string[]) {
  const { date: _date, ...rest } = headers;
  return { status, headers: rest, text: ids.reduce((left, id, index) => left.replaceAll(id, `id ${index}`), text) };
}

/** The problem an answer tells; "in" for whatever lets in, be it that the life cycle, the state or the body then stands in the way. */
export function outcomeOf({ status, text }: Answer): string {
  if (status >= 500) return `${status} ${text}`;
  if (![401, 403, 404].includes(status)) return 'in';
  const { type, allowed } = JSON.parse(text) as { type: string; allowed?: string[] };
  return allowed ? 'in' : type.replace('/api/v1/problems/', '');
}

/** Whatever the requests write is taken back: every case begins at the same book. */
export async function rolledBack<Given>({ db }: Pick<TestApp, 'db'>, ask: () => Promise<Given>): Promise<Given> {
  db.run(sql`BEGIN`);
  try {
    return await ask();
  } finally {
    db.run(sql`ROLLBACK`);
  }
}

/** The path of a route, of one thing. */
export function pathOf({ path }: Pick<Operation, 'path'>, id: string): string {
  return path.replace('{id}', id).replace('{jointId}', 'bezel').replace('{slug}', 'stale').replace('{name}', id);
}

import { expect } from 'vitest';
import { declared, type Operation } from './api-document.ts';
import type { RawAnswer, RawRequest } from './raw-request.ts';

/** What only the inside knows: places in the code, words of the database. */
export const INSIDE =
  /node_modules|\bSQLITE|SqliteError|better-sqlite3|drizzle|constraint failed|no such (table|column)|\.(ts|mjs|js):\d|\n\s+at |at Object\./;

/** How much of a request is shown when its answer is wrong. */
const SHOWN = 2000;

/**
 * Whether an answer is one that the document promises for the route: no 5xx, a status and a content type it declares, the
 * version as ETag where there is one, and a whole problem when it refuses. Gives the type of the problem.
 */
export function holdAnswer(
  operation: Operation,
  asked: RawRequest,
  { status, contentType, etag, text }: RawAnswer,
): string | undefined {
  const what = `${operation.route} answered ${status} ${text.slice(0, 400)} to ${JSON.stringify({ ...asked, body: asked.body?.toString().slice(0, SHOWN) })}`;
  expect(status, what).toBeLessThan(500);
  const promised = declared(operation, status);
  expect(promised, what).toBeDefined();
  if (promised?.content) expect(Object.keys(promised.content), what).toContain(contentType.split(';')[0]);
  if (status < 400) {
    const { version } = contentType.startsWith('application/json') ? (JSON.parse(text) as { version?: number }) : {};
    if (version !== undefined) expect(etag, what).toBe(`"${version}"`);
    return undefined;
  }
  const problem = JSON.parse(text) as Record<string, unknown>;
  expect(contentType, what).toMatch(/^application\/problem\+json/);
  expect(problem, what).toMatchObject({
    type: expect.stringMatching(/^\/api\/v1\/problems\/[a-z-]+$/),
    title: expect.stringMatching(/./),
    status,
    detail: expect.stringMatching(/.{10}/s),
  });
  expect(text.length, what).toBeLessThan(100_000);
  expect(text, what).not.toMatch(INSIDE);
  return problem['type'] as string;
}

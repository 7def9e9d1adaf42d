import { expect, test } from 'vitest';
import { aSmallStudio, bookOf } from '../support/a-small-studio.ts';
import { apiDocument, operationsOf, resolved, type ApiDocument, type Schema } from '../support/api-document.ts';
import { holdAnswer } from '../support/hold-answer.ts';
import { rawClient } from '../support/raw-request.ts';

/** Of a body: more members than any stack holds, and still below what the server reads. */
const LARGE = 400_000;

function names(count: number): string {
  return Array.from({ length: count }, (_, index) => `"${index.toString(36)}":1`).join();
}

const ROOTS: Readonly<Record<string, string>> = {
  null: 'null',
  'a list': '[]',
  'a text': '"x"',
  'a number': '0',
  'a number too large': '1e999',
  yes: 'true',
  'thousands of names': `{${names(9000)}}`,
  'names without an end': `{${names(LARGE / 8)}}`,
  'a list without an end': `[${'1,'.repeat(LARGE / 2)}1]`,
  'depth without an end': '['.repeat(LARGE / 2) + ']'.repeat(LARGE / 2),
  'text without an end': `"${'x'.repeat(LARGE)}"`,
};

test('every route that takes a body refuses a body that is no object, or no end', async () => {
  const studio = await aSmallStudio();
  const operations = operationsOf(await apiDocument(studio.owner)).filter(({ body }) => body !== undefined);
  expect(operations.length).toBeGreaterThan(35);
  const send = rawClient(studio.baseUrl);
  const book = bookOf(studio);
  const before = book();
  for (const operation of operations) {
    const id = studio.ids[operation.path.split('/')[1]!]?.[0] ?? '';
    const path = `/api/v1${operation.path.replace('{id}', id).replace('{jointId}', 'bezel')}`;
    const headers = {
      authorization: `Bearer ${studio.ownerToken}`,
      'content-type': 'application/json',
      'idempotency-key': 'a-body-for-all',
      'if-match': '"1"',
    };
    for (const [root, body] of Object.entries(ROOTS)) {
      const begun = performance.now();
      const asked = { method: operation.method, path, headers, body };
      const answer = await send(asked);
      holdAnswer(operation, asked, answer);
      expect([operation.route, root, answer.status]).toEqual([
        operation.route,
        root,
        expect.toSatisfy((status: number) => [422, 429].includes(status)),
      ]);
      expect([root, performance.now() - begun < 2000]).toEqual([root, true]);
    }
  }
  expect(book()).toBe(before);
});

/** Where lists are that have no end, by pointer. */
function endlessLists(schema: Schema, document: ApiDocument, pointer: string, behind: readonly string[] = []): string[] {
  if (schema.$ref !== undefined) {
    if (behind.includes(schema.$ref)) return [];
    return endlessLists(resolved(schema.$ref, document), document, pointer, [...behind, schema.$ref]);
  }
  const own = schema.type === 'array' && schema.maxItems === undefined ? [pointer] : [];
  const inner: [string, Schema][] = Object.entries(schema.properties ?? {});
  for (const option of [...(schema.anyOf ?? []), ...(schema.oneOf ?? []), ...(schema.prefixItems ?? [])])
    inner.push(['', option]);
  if (typeof schema.items === 'object') inner.push(['0', schema.items]);
  if (typeof schema.additionalProperties === 'object') inner.push(['*', schema.additionalProperties]);
  return [...own, ...inner.flatMap(([name, member]) => endlessLists(member, document, `${pointer}/${name}`, behind))];
}

test('every list that a body may hold has an end', async () => {
  const { owner } = await aSmallStudio();
  const document = await apiDocument(owner);
  const endless = operationsOf(document).flatMap(({ route, body }) => (body ? endlessLists(body, document, route) : []));
  expect(endless).toEqual([]);
  expect(endlessLists({ properties: { a: { type: 'array' } } }, document, '')).toEqual(['/a']);
});

import { expect, test } from 'vitest';
import { aSmallStudio } from '../support/a-small-studio.ts';
import { operationsOf, type ApiDocument } from '../support/api-document.ts';
import { rawClient } from '../support/raw-request.ts';
import { soundBodies } from '../support/sound-bodies.ts';
import { startApp } from '../support/start-app.ts';

interface Ref {
  $ref?: string;
}

async function documentOf(get: (path: string) => PromiseLike<{ body: unknown }>): Promise<ApiDocument> {
  return (await get('/openapi.json')).body as ApiDocument;
}

const named = (parameters: readonly unknown[]): string[] =>
  parameters.flatMap((parameter) => (parameter as Ref).$ref?.split('/').at(-1) ?? []);

test('the document names Idempotency-Key where it is read, and nowhere else', async () => {
  const studio = await aSmallStudio();
  const document = await documentOf((path) => studio.owner.get(path));
  const bodies = await soundBodies(studio);
  const send = rawClient(studio.baseUrl);
  const posts = operationsOf(document).filter(
    ({ route, method, body, form }) => method === 'POST' && !form && (body === undefined || route in bodies),
  );
  expect(posts.length).toBeGreaterThan(30);
  for (const { route, path, parameters, table } of posts) {
    const id = studio.ids[path.split('/')[1]!]?.[0] ?? '';
    const { text } = await send({
      method: 'POST',
      path: `/api/v1${path.replace('{id}', id).replace('{jointId}', 'bezel')}${table ? '?run=real' : ''}`,
      headers: {
        authorization: `Bearer ${studio.ownerToken}`,
        'content-type': table ? 'text/csv' : 'application/json',
        'idempotency-key': 'x',
      },
      body: table ? (bodies[route]![0] as string) : JSON.stringify(bodies[route]?.[0] ?? {}),
    });
    const isRead = text.includes('Idempotency-Key must be');
    expect([route, isRead]).toEqual([route, named(parameters).some((name) => name.startsWith('IdempotencyKey'))]);
  }
});

test('the document names If-Match for every edit, and who may call', async () => {
  const { owner } = await startApp();
  const document = await documentOf((path) => owner.get(path));
  const operations = operationsOf(document);
  const edits = operations.filter(({ method }) => method === 'PATCH' || method === 'PUT');
  expect(edits.length).toBeGreaterThan(7);
  for (const { route, parameters, responses } of edits) {
    expect([route, named(parameters)]).toEqual([route, expect.arrayContaining([expect.stringMatching(/^IfMatch/), 'Confirm'])]);
    expect([route, Object.keys(responses)]).toEqual([route, expect.arrayContaining(['401', '403', '409', '412', '422', '428'])]);
  }
  const raw = document.paths as unknown as Record<string, Record<string, { security?: unknown; description?: string }>>;
  expect(raw['/api/v1/health']!['get']!.security).toEqual([]);
  expect(raw['/api/v1/heats/{id}/moves']!['post']!.description).toMatch(/\n\nFor: owner, bench, student\.$/);
  expect(raw['/api/v1/settings']!['patch']!.description).toMatch(/For: owner\.$/);
});

test('the document tells the fences of a field, and what a field of a move is for', async () => {
  const { owner } = await startApp();
  const { paths, components } = (await owner.get('/openapi.json')).body;
  const properties = (path: string) => paths[path].post.requestBody.content['application/json'].schema.properties;
  expect(properties('/api/v1/commissions').quantity).toMatchObject({
    type: 'integer',
    minimum: 1,
    maximum: 500,
    description: 'To be confirmed under 1 or over 50.',
  });
  expect(properties('/api/v1/heats/{id}/moves').lotId.description).toContain('With the move to primed');
  expect(components.schemas.PlaceInput.properties.alongMm.description).toContain('Band: round the mean circle');
  expect(components.responses.Refused409.description).toContain('moved-on: It is no longer in the state you saw');
});

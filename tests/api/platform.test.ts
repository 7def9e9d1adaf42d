import { Validator } from '@seriousme/openapi-schema-validator';
import { expect, test } from 'vitest';
import { ACCESS } from '../../src/platform/http/access-table.ts';
import { PROBLEMS } from '../../src/platform/http/problem.ts';
import { SAID } from '../../src/web/words/de/said/index.ts';
import { startApp } from '../support/start-app.ts';

test('the OpenAPI document is valid 3.1 and describes every route of the access table', async () => {
  const { stranger } = await startApp();
  const document = (await stranger.get('/openapi.json').expect(200)).body;
  const result = await new Validator().validate(structuredClone(document));
  expect(result.errors ?? []).toEqual([]);
  expect(document.openapi).toMatch(/^3\.1\./);
  const described = Object.entries(document.paths as Record<string, object>).flatMap(([path, methods]) =>
    Object.keys(methods).map(
      (method) => `${method.toUpperCase()} ${path.replace('/api/v1', '').replaceAll(/\{(\w+)\}/g, ':$1')}`,
    ),
  );
  expect(described.sort()).toEqual(
    Object.keys(ACCESS)
      .filter((route) => route !== 'GET /openapi.json')
      .sort(),
  );
});

test('every problem is explained at its type', async () => {
  const { stranger } = await startApp();
  const slugs = Object.keys(PROBLEMS);
  expect(slugs.length).toBeGreaterThan(15);
  for (const slug of slugs) expect((await stranger.get(`/problems/${slug}`).expect(200)).body.meaning.length).toBeGreaterThan(30);
  await stranger.get('/problems/no-such').expect(404);
});

test('a body that is not JSON, is too large, or is something else, is refused as what it is', async () => {
  const { owner } = await startApp();
  const post = (body: string, type = 'application/json') => owner.post('/clients').set('content-type', type).send(body);
  const said = async (status: number, body: string, type?: string) => {
    const { detail } = (await post(body, type).expect(status)).body as { detail: string };
    expect(detail in SAID, detail).toBe(true);
  };
  await said(400, '');
  await said(400, '{"name":');
  await said(415, 'hello', 'text/plain');
  await said(413, JSON.stringify({ name: 'x'.repeat(1_100_000) }));
  expect((await post('{"name":').expect(400)).body.type).toBe('/api/v1/problems/malformed-json');
  expect((await post('{"__proto__":{"x":1}}').expect(400)).body.type).toBe('/api/v1/problems/malformed-json');
  expect((await post('name=x', 'application/x-www-form-urlencoded').expect(415)).body.type).toBe(
    '/api/v1/problems/wrong-media-type',
  );
  expect((await post('hello', 'text/plain').expect(415)).body.type).toBe('/api/v1/problems/wrong-media-type');
  expect((await post(JSON.stringify({ name: 'x'.repeat(1_100_000) })).expect(413)).body.type).toBe('/api/v1/problems/too-large');
  expect((await post('[]').expect(422)).body.type).toBe('/api/v1/problems/invalid-fields');
});

test('too many tries to sign in are slowed down', async () => {
  const { stranger } = await startApp();
  const statuses: number[] = [];
  for (let i = 0; i < 12; i++) statuses.push((await stranger.post('/sessions', { signInName: 'x' })).status);
  expect(statuses.at(0)).toBe(422);
  expect(statuses.at(-1)).toBe(429);
  const slowed = await stranger.post('/sessions', { signInName: 'x' }).expect(429);
  expect(slowed.body.detail).toMatch(/^Too many tries from this device: wait \d+ seconds$/);
  expect(Number(slowed.headers['retry-after'])).toBe(slowed.body.retryAfterS);
});

test('pages of documentation open without a sign-in', async () => {
  const { baseUrl } = await startApp();
  const page = await fetch(`${baseUrl}/docs/roles`);
  expect(page.status).toBe(200);
  expect((await page.text()).replaceAll('<wbr>', '')).toContain('<td><code>PATCH /settings</code></td><td>owner</td>');
  const api = await fetch(`${baseUrl}/docs/`);
  expect(api.status).toBe(200);
  // Served over plain HTTP, it insists on no TLS and asks nobody else.
  expect(api.headers.get('content-security-policy')).toContain("default-src 'self'");
  expect(api.headers.get('content-security-policy')).not.toMatch(/upgrade-insecure-requests|swagger\.io/);
  expect(page.headers.get('content-security-policy')).not.toContain('upgrade-insecure-requests');
  expect(page.headers.get('strict-transport-security')).toBeNull();
  const materials = await (await fetch(`${baseUrl}/docs/materials`)).text();
  expect(materials).toContain('<code>GET /api/v1/metals</code>');
  expect(materials).toContain('<td>solidus, °C</td><td>802</td><td>found</td>');
  expect(materials).toContain('common practice of the trade, no source');
  expect(materials).toContain('holds cadmium');
});

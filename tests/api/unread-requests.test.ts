import { connect } from 'node:net';
import { expect, test } from 'vitest';
import { rawClient } from '../support/raw-request.ts';
import { startApp } from '../support/start-app.ts';

/** What comes back for bytes that no HTTP client would send. */
function answerTo(baseUrl: string, bytes: string): Promise<string> {
  const { hostname, port } = new URL(baseUrl);
  return new Promise((resolve, reject) => {
    let text = '';
    const socket = connect(Number(port), hostname, () => socket.write(bytes));
    socket.setEncoding('utf8');
    socket.on('data', (chunk: string) => (text += chunk));
    socket.on('error', reject);
    socket.on('close', () => resolve(text));
  });
}

test('an address that cannot be an address is answered as a problem', async () => {
  const { baseUrl, owner, stranger } = await startApp();
  const send = rawClient(baseUrl);
  for (const id of ['%', '%zz', '%c0%af']) {
    const answer = await send({ method: 'GET', path: `/api/v1/clients/${id}` });
    expect([id, answer.status, answer.contentType]).toEqual([id, 404, 'application/problem+json; charset=utf-8']);
    expect(JSON.parse(answer.text)).toMatchObject({ type: '/api/v1/problems/not-found', status: 404 });
  }
  // Longer than any part of an address: no route has it, which only those who are signed in are told.
  const long = `/clients/${'x'.repeat(101)}`;
  const { body, headers } = await owner.get(long).expect(404);
  expect([body.type, headers['content-type']]).toEqual(['/api/v1/problems/not-found', 'application/problem+json; charset=utf-8']);
  expect((await stranger.get(long).expect(401)).body.type).toBe('/api/v1/problems/not-signed-in');
});

test('what is not HTTP is answered as a problem, and the connection is closed', async () => {
  const { baseUrl, stranger } = await startApp();
  const cases: [string, string, number][] = [
    ['HELLO\r\n\r\n', 'malformed-request', 400],
    ['GET /api/v1/health HTTP/1.1\r\nHost: x\r\nno colon here\r\n\r\n', 'malformed-request', 400],
    [`GET /api/v1/health HTTP/1.1\r\nHost: x\r\nConfirm: ${'x'.repeat(20_000)}\r\n\r\n`, 'headers-too-large', 431],
    [`GET /api/v1/clients?name=${'x'.repeat(20_000)} HTTP/1.1\r\nHost: x\r\n\r\n`, 'headers-too-large', 431],
  ];
  for (const [bytes, slug, status] of cases) {
    const answer = await answerTo(baseUrl, bytes);
    expect(answer).toMatch(new RegExp(`^HTTP/1\\.1 ${status} .*\r\n(.*\r\n)*Content-Type: application/problem\\+json\r\n`));
    expect(JSON.parse(answer.split('\r\n\r\n')[1]!)).toMatchObject({ type: `/api/v1/problems/${slug}`, status });
    await stranger.get(`/problems/${slug}`).expect(200);
  }
});

test('asking for the headers alone is for whoever may read', async () => {
  const { baseUrl, services, actors } = await startApp();
  const send = rawClient(baseUrl);
  const head = async (path: string, token?: string) =>
    (await send({ method: 'HEAD', path: `/api/v1${path}`, headers: token ? { authorization: `Bearer ${token}` } : {} })).status;
  expect(await head('/health')).toBe(200);
  expect(await head('/clients')).toBe(401);
  expect(await head('/clients', services.keys.addToken(actors.student, { name: 'head' }).token)).toBe(403);
  expect(await head('/clients', services.keys.addToken(actors.desk, { name: 'head' }).token)).toBe(200);
});

test('what a person gave is shown again as far as somebody would read it', async () => {
  const { owner } = await startApp();
  const long = await owner.post('/clients', { name: 'Millrace', phone: 'x'.repeat(100_000) }).expect(422);
  expect(long.body.errors).toEqual([{ pointer: '/phone', detail: expect.any(String), given: `${'x'.repeat(200)}…` }]);
  const names = Array.from({ length: 9000 }, (_, index) => [`n${index}`, 1]);
  const many = await owner.post('/clients', { name: 'Millrace', ...Object.fromEntries(names) }).expect(422);
  expect(many.body.errors).toHaveLength(500);
  expect(many.body.detail.length).toBeLessThan(3000);
  const name = await owner.post('/clients', { name: 'Millrace', ['x'.repeat(500_000)]: 1 }).expect(422);
  expect(name.text.length).toBeLessThan(5000);
  const column = await owner
    .post('/imports/clients')
    .set('content-type', 'text/csv')
    .send(`name,${'x'.repeat(500_000)}\nMillrace,1`);
  expect([column.status, column.text.length < 10_000]).toEqual([422, true]);
});

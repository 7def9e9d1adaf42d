import { once } from 'node:events';
import { connect, type Socket } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { bareSocket, repliesIn } from '../support/bare-socket.ts';
import { rawClient } from '../support/raw-request.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const HEALTH = 'GET /api/v1/health HTTP/1.1\r\nHost: x\r\n\r\n';
/** Milliseconds in place of minutes, so that a test need not wait for them. */
const HASTY = { headersTimeout: 150, requestTimeout: 400, connectionsCheckingInterval: 25 };

function post(path: string, app: TestApp, body: string, length = Buffer.byteLength(body)): string {
  const { token } = app.services.keys.addToken(app.actors.owner, { name: 'bare' });
  const headers = `Host: x\r\nAuthorization: Bearer ${token}\r\nContent-Type: application/json\r\nContent-Length: ${length}`;
  return `POST /api/v1${path} HTTP/1.1\r\n${headers}\r\n\r\n${body}`;
}

/** Goes on sending a little, as whoever wants to hold a server up does, until the line is closed. */
function drip(socket: Socket, bytes: () => string): void {
  const timer = setInterval(() => void (socket.writable && socket.write(bytes())), 10);
  socket.once('close', () => clearInterval(timer));
}

test('a request whose headers drip in is not waited for', async () => {
  const app = await startApp({ server: HASTY });
  const { socket, say, closed } = await bareSocket(app.baseUrl);
  say('GET /api/v1/health HTTP/1.1\r\nHost: x\r\n');
  drip(socket, () => 'X-More: 1\r\n');
  const [reply] = repliesIn(await closed);
  expect(reply).toMatchObject({ status: 408, headers: expect.stringContaining('application/problem+json') });
  expect(JSON.parse(reply!.body)).toMatchObject({ type: '/api/v1/problems/too-slow' });
  await app.stranger.get('/health').expect(200);
});

test('a request whose body drips in is not waited for, and writes nothing', async () => {
  const app = await startApp({ server: HASTY });
  const { socket, say, closed } = await bareSocket(app.baseUrl);
  say(post('/clients', app, '{"name":"', 100_000));
  drip(socket, () => 'x');
  const [reply] = repliesIn(await closed);
  expect(reply).toMatchObject({ status: 408 });
  expect((await app.owner.get('/clients').expect(200)).body.items).toEqual([]);
});

test('who says nothing, or reads nothing, is cut off', async () => {
  const app = await startApp({ server: { ...HASTY, timeout: 150 } });
  const silent = await bareSocket(app.baseUrl);
  await silent.closed;
  const deaf = await bareSocket(app.baseUrl);
  deaf.socket.pause();
  const replies = `GET /api/v1/openapi.json HTTP/1.1\r\nHost: x\r\n\r\n`.repeat(40);
  deaf.say(replies);
  // Its own end is not heard while it does not read: what tells is that the server has none left.
  const connections = () => new Promise((resolve) => app.http.server.getConnections((_error, count) => resolve(count)));
  await expect.poll(connections).toBe(0);
  deaf.socket.destroy();
});

test('the studio’s own server waits minutes, not for ever', async () => {
  const { http } = await startApp();
  const { headersTimeout, requestTimeout, timeout, keepAliveTimeout } = http.server;
  for (const ms of [headersTimeout, requestTimeout, timeout, keepAliveTimeout]) {
    expect(ms).toBeGreaterThan(30_000);
    expect(ms).toBeLessThanOrEqual(300_000);
  }
});

test('a server that is to stop does not wait for a request that never comes whole', async () => {
  const app = await startApp();
  const { say, closed } = await bareSocket(app.baseUrl);
  const begun = once(app.http.server, 'request');
  say(post('/clients', app, '{"name":"', 100_000));
  await begun;
  await app.http.close();
  expect(repliesIn(await closed).filter(({ status }) => status < 400)).toEqual([]);
});

test('another client is answered while a thousand connections say nothing, or half of something', async () => {
  const app = await startApp();
  const { port } = new URL(app.baseUrl);
  const open = Array.from({ length: 1000 }, (_, nth) => {
    const socket = connect(Number(port), '127.0.0.1', () => {
      if (nth % 2 === 0) socket.write('POST /api/v1/clients HTTP/1.1\r\nHost: x\r\nContent-Le');
    });
    socket.on('error', () => {});
    return socket;
  });
  onTestFinished(() => open.forEach((socket) => socket.destroy()));
  await Promise.all(open.map((socket) => once(socket, 'connect')));
  for (let n = 0; n < 20; n++) await app.owner.post('/benches', { name: `Bench ${n}` }).expect(201);
  expect((await app.owner.get('/benches').expect(200)).body.items).toHaveLength(20);
  expect(open.filter(({ destroyed }) => destroyed)).toEqual([]);
});

test('what is asked before a line is half closed is answered; half a request is not', async () => {
  const app = await startApp();
  const whole = await bareSocket(app.baseUrl);
  whole.socket.end(HEALTH);
  expect(repliesIn(await whole.closed)).toEqual([expect.objectContaining({ status: 200 })]);
  const half = await bareSocket(app.baseUrl);
  half.socket.end(post('/clients', app, '{"name":"Pebble"}', 1000));
  expect(repliesIn(await half.closed).filter(({ status }) => status < 400)).toEqual([]);
  expect((await app.owner.get('/clients').expect(200)).body.items).toEqual([]);
});

test('a hundred requests sent at once on one line are answered in order', async () => {
  const app = await startApp();
  const { socket, closed } = await bareSocket(app.baseUrl);
  const asked = Array.from({ length: 100 }, (_, n) => (n % 2 === 0 ? post('/benches', app, `{"name":"Bench ${n}"}`) : HEALTH));
  socket.end(asked.join(''));
  const replies = repliesIn(await closed);
  expect(replies.map(({ status }) => status)).toEqual(asked.map((_, n) => (n % 2 === 0 ? 201 : 200)));
  expect(replies.flatMap(({ body }) => (JSON.parse(body) as { name?: string }).name ?? [])).toEqual(
    Array.from({ length: 50 }, (_, n) => `Bench ${2 * n}`),
  );
});

test('a body over the limit is refused before it is read to its end, said or not', async () => {
  const app = await startApp();
  const said = await bareSocket(app.baseUrl);
  said.say(post('/clients', app, '{"name":"', 2 ** 40));
  await expect.poll(said.heard).toContain('/api/v1/problems/too-large');
  expect(repliesIn(said.heard())[0]).toMatchObject({ status: 413 });
  said.socket.destroy();
  const unsaid = await bareSocket(app.baseUrl);
  const chunked = post('/clients', app, '').replace('Content-Length: 0', 'Transfer-Encoding: chunked');
  unsaid.say(chunked);
  drip(unsaid.socket, () => `10000\r\n${'x'.repeat(0x10000)}\r\n`);
  await expect.poll(unsaid.heard).toContain('/api/v1/problems/too-large');
  expect(repliesIn(unsaid.heard())[0]).toMatchObject({ status: 413 });
  unsaid.socket.destroy();
  await app.stranger.get('/health').expect(200);
});

const deep = (open: string, close: string) => `${open.repeat(100_000)}1${close.repeat(100_000)}`;

test('JSON a hundred thousand levels deep is refused where a level is wrong', async () => {
  const app = await startApp();
  const send = rawClient(app.baseUrl);
  const { token } = app.services.keys.addToken(app.actors.owner, { name: 'deep' });
  const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json', 'if-match': '"1"' };
  const bodies = [deep('[', ']'), deep('{"a":', '}'), `{"overrides":${deep('{"a":', '}')}}`, `{"entered":${deep('[', ']')}}`];
  for (const [method, path] of [
    ['POST', '/clients'],
    ['POST', '/estimates'],
    ['PATCH', '/settings'],
    ['POST', '/calculations/drawing'],
  ] as const) {
    for (const body of bodies) {
      const answer = await send({ method, path: `/api/v1${path}`, headers, body });
      expect([path, body.slice(0, 20), answer.status]).toEqual([path, body.slice(0, 20), 422]);
    }
  }
});

/** What no HTTP client sends, and where two servers in a row might read different things. */
const BAD: Readonly<Record<string, string | Buffer>> = {
  'two lengths': 'POST /api/v1/sessions HTTP/1.1\r\nHost: x\r\nContent-Length: 2\r\nContent-Length: 3\r\n\r\n{}',
  'length and chunks':
    'POST /api/v1/sessions HTTP/1.1\r\nHost: x\r\nContent-Length: 2\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n',
  'a length below nothing': 'POST /api/v1/sessions HTTP/1.1\r\nHost: x\r\nContent-Length: -1\r\n\r\n',
  'a length of words': 'POST /api/v1/sessions HTTP/1.1\r\nHost: x\r\nContent-Length: two\r\n\r\n{}',
  'a chunk of no size': 'POST /api/v1/sessions HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n0\r\n\r\n',
  'an unknown coding': 'POST /api/v1/sessions HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: backwards\r\n\r\n{}',
  'a folded header': 'GET /api/v1/health HTTP/1.1\r\nHost: x\r\nA: b\r\n c\r\n\r\n',
  'a space before the colon': 'GET /api/v1/health HTTP/1.1\r\nHost : x\r\n\r\n',
  'a null in a header': 'GET /api/v1/health HTTP/1.1\r\nHost: x\r\nA: \0\r\n\r\n',
  'no host': 'GET /api/v1/health HTTP/1.1\r\n\r\n',
  'an unknown method': 'STEAL /api/v1/health HTTP/1.1\r\nHost: x\r\n\r\n',
  'a version to come': 'GET /api/v1/health HTTP/9.9\r\nHost: x\r\n\r\n',
  'a preface of HTTP/2': 'PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n',
  'a greeting of TLS': Buffer.from('16030100c8010000c40303' + '00'.repeat(40), 'hex'),
  'headers without an end': `GET /api/v1/health HTTP/1.1\r\nHost: x\r\n${'A: b\r\n'.repeat(20_000)}\r\n`,
  'bytes of no sense': Buffer.from(Array.from({ length: 4000 }, (_, n) => (n * 73 + 11) % 256)),
};

test('what is no HTTP is refused, and the line closed', async () => {
  const app = await startApp();
  for (const [what, bytes] of Object.entries(BAD)) {
    const { say, closed } = await bareSocket(app.baseUrl);
    say(bytes);
    const replies = repliesIn(await closed);
    expect([what, replies.filter(({ status }) => !(status >= 400 && status < 500))]).toEqual([what, []]);
    expect([what, replies.length <= 1]).toEqual([what, true]);
  }
  await app.stranger.get('/health').expect(200);
});

test('a request to be passed on, or to speak another protocol, is not', async () => {
  const app = await startApp();
  const tunnel = await bareSocket(app.baseUrl);
  tunnel.say('CONNECT elsewhere.example:443 HTTP/1.1\r\nHost: elsewhere.example\r\n\r\n');
  expect(repliesIn(await tunnel.closed).filter(({ status }) => status < 400)).toEqual([]);
  const elsewhere = await bareSocket(app.baseUrl);
  elsewhere.socket.end('GET http://elsewhere.example/api/v1/clients HTTP/1.1\r\nHost: elsewhere.example\r\n\r\n');
  expect(repliesIn(await elsewhere.closed).map(({ status }) => status)).toEqual([401]);
  const upgrade = await bareSocket(app.baseUrl);
  upgrade.socket.end('GET /api/v1/health HTTP/1.1\r\nHost: x\r\nConnection: Upgrade\r\nUpgrade: h2c\r\n\r\n');
  expect(repliesIn(await upgrade.closed).map(({ status }) => status)).toEqual([200]);
});

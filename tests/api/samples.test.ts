import type Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { buildApp } from '../../src/app.ts';
import type { SampleStudio } from '../../src/features/samples/index.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { sampleStudio } from '../../src/sample-studio.ts';
import { smallStudio } from '../support/small-sample.ts';
import { startApp, testClock } from '../support/start-app.ts';

/** A browser that keeps cookies, and says which book its page is of. */
function browser(baseUrl: string, cookies = new Map<string, string>()) {
  async function ask(method: string, path: string, { book, body, headers = {} }: Asked = {}) {
    const reply = await fetch(`${baseUrl}${path.startsWith('/link') || path === '/' ? path : `/api/v1${path}`}`, {
      method,
      headers: {
        ...headers,
        ...(book === undefined ? {} : { book }),
        ...(body === undefined ? {} : { 'content-type': 'application/json' }),
        cookie: [...cookies].map((pair) => pair.join('=')).join('; '),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    for (const line of reply.headers.getSetCookie()) {
      const [, name, value] = /^([^=]+)=([^;]*)/.exec(line)!;
      if (value === '') cookies.delete(name!);
      else cookies.set(name!, value!);
    }
    const text = await reply.text();
    return { status: reply.status, body: text.startsWith('{') ? JSON.parse(text) : text, cookies: reply.headers.getSetCookie() };
  }
  return {
    cookies,
    ask,
    async untilReady(): Promise<{ titles: Set<string> }> {
      const titles = new Set<string>();
      for (;;) {
        const { body } = await ask('GET', '/samples/current');
        if (body.step) titles.add(body.step.title);
        if (body.state === 'ready') return { titles };
        if (body.state !== 'making') throw new Error(`the sample is ${body.state}`);
        await new Promise((next) => setTimeout(next, 50));
      }
    },
  };
}

interface Asked {
  book?: string;
  body?: object;
  headers?: Record<string, string>;
}

async function signedIn(app: Awaited<ReturnType<typeof startApp>>, role: 'owner' | 'bench' = 'owner') {
  const one = browser(app.baseUrl);
  const password = 'a sentence only for tests';
  const { body } = await app.owner.get(`/people/${app.actors[role].personId}`).expect(200);
  await app.owner.patch(`/people/${body.id}`, { signInName: role, password }, body.version).expect(200);
  expect((await one.ask('POST', '/sessions', { body: { signInName: role, password } })).status).toBe(201);
  return one;
}

/** Every row of every table, in the order of the file. */
function rows({ $client }: { $client: Database.Database }): string {
  const tables = $client.prepare(`SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name`).pluck().all() as string[];
  expect(tables.length).toBeGreaterThan(40);
  return JSON.stringify(tables.map((name) => [name, $client.prepare(`SELECT * FROM "${name}"`).all()]));
}

test('the whole invented studio opens beside the book, which stays as it was, and is gone once it is left', async () => {
  const clock = testClock();
  const { db, close } = openDb(':memory:', clock.now());
  const { http } = await buildApp({ db, clock }, { logLevel: 'silent', sampleStudio });
  const baseUrl = await http.listen({ host: '127.0.0.1', port: 0 });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  const before = rows(db);
  const visitor = browser(baseUrl);
  expect((await visitor.ask('GET', '/samples/current')).body).toEqual({ state: 'none', step: null, start: 'free', signIn: null });
  expect((await visitor.ask('POST', '/samples/first-look', { body: {} })).status).toBe(202);
  // The own book goes on answering while the sample is made.
  expect((await visitor.ask('GET', '/health')).body).toEqual({ status: 'ok', ownerMissing: true });
  const { titles } = await visitor.untilReady();
  expect(titles).toContain('Pendant for a green cabochon');
  const { body: who } = await visitor.ask('GET', '/sessions/current');
  expect(who).toMatchObject({ name: 'Flint', roles: expect.arrayContaining(['owner']) });
  expect((await visitor.ask('GET', '/preferences')).body.studio.name).toBe('Quillwharf Bench');
  const { body: benches } = await visitor.ask('GET', '/benches');
  expect(benches.items.map(({ name }: { name: string }) => name).sort()).toEqual(['Anvil', 'Heron', 'Lantern']);
  const { body: client } = await visitor.ask('POST', '/clients', {
    body: { name: 'Nobody at all', email: 'nobody@example.org' },
  });
  expect((await visitor.ask('GET', `/clients/${client.id}`)).body.name).toBe('Nobody at all');
  expect(rows(db)).toBe(before);

  // What a client would see says that nobody is one, in the language of the client.
  const { body: offered } = await visitor.ask('GET', '/commissions?state=offered');
  const link = await visitor.ask('POST', '/private-links', { body: { commissionId: offered.items[0].id } });
  expect((await visitor.ask('GET', link.body.path)).body).toMatch(
    /This is a sample studio: the work, the prices and the people are invented|Das ist eine Beispielwerkstatt: Arbeit/,
  );
  expect((await visitor.ask('GET', '/link/nobody-knows-this')).body).toContain('This is a sample studio');

  expect((await visitor.ask('DELETE', '/samples/current')).status).toBe(204);
  expect([...visitor.cookies]).toEqual([]);
  expect((await visitor.ask('GET', '/health')).body.ownerMissing).toBe(true);
  expect((await visitor.ask('GET', `/clients/${client.id}`)).status).toBe(401);
  expect(rows(db)).toBe(before);
}, 600_000);

test('the owner comes back from a sample signed in as before, and two samples know nothing of each other', async () => {
  const app = await startApp({ sampleStudio: smallStudio });
  const owner = await signedIn(app);
  const session = owner.cookies.get('hearthbook_session');
  expect((await owner.ask('GET', '/samples/current')).body.start).toBe('owner');
  await owner.ask('POST', '/samples');
  const other = browser(app.baseUrl, new Map(owner.cookies));
  other.cookies.delete('hearthbook_sample');
  await other.ask('POST', '/samples');
  await Promise.all([owner.untilReady(), other.untilReady()]);
  const { body: added } = await owner.ask('POST', '/clients', {
    body: { name: 'Only in the first', email: 'nobody@example.org' },
  });
  expect((await owner.ask('GET', '/clients')).body.items).toHaveLength(1);
  expect((await other.ask('GET', '/clients')).body.items).toHaveLength(0);
  expect((await app.owner.get('/clients')).body.items).toHaveLength(0);

  // Another session in the sample leaves that of the own book alone.
  expect((await owner.ask('DELETE', '/sessions/current')).status).toBe(204);
  expect((await owner.ask('GET', '/sessions/current')).status).toBe(401);
  const { signIn } = (await owner.ask('GET', '/samples/current')).body;
  await owner.ask('POST', '/sessions', { body: { signInName: signIn.names[0], password: signIn.password } });
  expect((await owner.ask('GET', `/clients/${added.id}`)).status).toBe(200);
  expect(owner.cookies.get('hearthbook_session')).toBe(session);

  await owner.ask('DELETE', '/samples/current');
  expect((await owner.ask('GET', '/sessions/current')).body).toMatchObject({ name: 'Flint' });
  expect((await owner.ask('GET', `/clients/${added.id}`)).status).toBe(404);
  expect((await other.ask('GET', '/samples/current')).body.state).toBe('ready');
  expect((await other.ask('GET', '/clients')).status).toBe(200);
});

test('a page of one book does nothing in the other', async () => {
  const app = await startApp({ sampleStudio: smallStudio });
  const owner = await signedIn(app);
  await owner.ask('POST', '/samples');
  await owner.untilReady();
  const steps = { sentAt: new Date().toISOString(), steps: [] };
  const refused = await owner.ask('POST', '/bench/steps', { book: 'own', body: steps });
  expect([refused.status, refused.body.type]).toEqual([409, '/api/v1/problems/other-book']);
  expect(refused.cookies.map((line) => line.split('=')[0])).toEqual(['hearthbook_book']);
  expect(refused.cookies[0]).not.toContain('HttpOnly');
  const book = owner.cookies.get('hearthbook_book')!;
  expect((await owner.ask('GET', '/clients', { book })).status).toBe(200);
  await owner.ask('DELETE', '/samples/current');
  expect((await owner.ask('GET', '/clients', { book })).body.type).toBe('/api/v1/problems/other-book');
  expect((await owner.ask('GET', '/clients', { book: 'own' })).status).toBe(200);
});

test('a sample that the server no longer has leads back to the own book', async () => {
  const before = await startApp({ sampleStudio: smallStudio });
  const owner = await signedIn(before);
  await owner.ask('POST', '/samples');
  await owner.untilReady();
  const book = owner.cookies.get('hearthbook_book')!;
  await before.http.close();
  const after = await startApp({ sampleStudio: smallStudio });
  const again = browser(after.baseUrl, owner.cookies);
  expect((await again.ask('GET', '/clients', { book })).body.type).toBe('/api/v1/problems/other-book');
  expect([again.cookies.has('hearthbook_sample'), again.cookies.has('hearthbook_book')]).toEqual([false, false]);
  expect((await again.ask('GET', '/samples/current')).body.state).toBe('none');
});

test('a sample is one visit: asked for again it goes on, unused for half a day it ends, and a third takes the place of the oldest', async () => {
  const clock = testClock();
  const app = await startApp({ sampleStudio: smallStudio, clock });
  const first = await signedIn(app);
  await first.ask('POST', '/samples');
  const secret = first.cookies.get('hearthbook_sample');
  await first.untilReady();
  await first.ask('POST', '/samples');
  expect(first.cookies.get('hearthbook_sample')).toBe(secret);
  const others = [1, 2].map(() =>
    browser(app.baseUrl, new Map([...first.cookies].filter(([name]) => name === 'hearthbook_session'))),
  );
  for (const other of others) {
    clock.advance({ minutes: 1 });
    await other.ask('POST', '/samples');
    await other.untilReady();
  }
  expect((await first.ask('GET', '/samples/current')).body.state).toBe('none');
  clock.advance({ hours: 11 });
  await others[0]!.ask('GET', '/clients');
  clock.advance({ hours: 2 });
  await app.services.samples.endIdle();
  expect((await others[0]!.ask('GET', '/samples/current')).body.state).toBe('ready');
  expect((await others[1]!.ask('GET', '/samples/current')).body.state).toBe('none');
});

test('its making is cancelled, and told when it fails', async () => {
  let ended: AbortSignal | undefined;
  const endless: SampleStudio = {
    make: (_onStep, signal) => new Promise((_made, failed) => signal.addEventListener('abort', () => failed((ended = signal)))),
    open: sampleStudio.open,
  };
  const app = await startApp({ sampleStudio: endless });
  const owner = await signedIn(app);
  expect((await owner.ask('POST', '/samples')).body.state).toBe('making');
  expect((await owner.ask('GET', '/clients', { book: 'own' })).status).toBe(200);
  await owner.ask('DELETE', '/samples/current');
  expect(ended?.aborted).toBe(true);
  expect((await owner.ask('GET', '/samples/current')).body.state).toBe('none');

  const broken: SampleStudio = { make: () => Promise.reject(new Error('no room')), open: sampleStudio.open };
  const poorly = await startApp({ sampleStudio: broken });
  const one = await signedIn(poorly);
  await one.ask('POST', '/samples');
  await expect.poll(async () => (await one.ask('GET', '/samples/current')).body.state).toBe('failed');
  // It may be tried again.
  expect((await one.ask('POST', '/samples')).status).toBe(202);
});

test('it is opened by who may make the first owner, afterwards by the owner alone', async () => {
  const clock = testClock();
  const { db, close } = openDb(':memory:', clock.now());
  const { http, firstOwnerCode } = await buildApp({ db, clock }, { logLevel: 'silent', sampleStudio: smallStudio });
  onTestFinished(async () => {
    await http.close();
    close();
  });
  const look = (payload: object, more: object = {}) =>
    http.inject({ method: 'POST', url: '/api/v1/samples/first-look', payload, remoteAddress: '192.168.1.30', ...more });
  expect((await look({})).statusCode).toBe(403);
  expect((await look({ code: 'guessed' })).statusCode).toBe(403);
  // A server in front of this one, and a name of another site that was made to lead here.
  const near = { remoteAddress: '127.0.0.1' };
  expect((await look({}, { ...near, headers: { host: 'localhost:3047', 'x-forwarded-for': '203.0.113.9' } })).statusCode).toBe(
    403,
  );
  expect((await look({}, { ...near, headers: { host: 'elsewhere.test' } })).statusCode).toBe(403);
  const foreign = { ...near, headers: { host: 'localhost:3047', 'sec-fetch-site': 'cross-site' } };
  expect((await look({ code: firstOwnerCode }, foreign)).json().type).toBe('/api/v1/problems/other-site');
  expect((await look({ code: firstOwnerCode })).statusCode).toBe(202);
  expect((await look({}, { ...near, headers: { host: 'localhost:3047' } })).statusCode).toBe(202);

  const app = await startApp({ sampleStudio: smallStudio });
  const bench = await signedIn(app, 'bench');
  expect((await bench.ask('POST', '/samples')).status).toBe(403);
  expect((await bench.ask('POST', '/samples/first-look', { body: { code: app.firstOwnerCode } })).status).toBe(403);
  const without = await startApp();
  const owner = await signedIn(without);
  expect((await owner.ask('GET', '/samples/current')).body.start).toBe('none');
  expect((await owner.ask('POST', '/samples')).body.type).toBe('/api/v1/problems/condition-not-met');
});

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { eventsIn, followSearch, openEvents, overSearch } from '../support/plan-searches.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { slowSearch, unlikeProngs } from '../support/unlike-prongs.ts';

const asked = async ({ bench }: TestApp, body: object): Promise<string> =>
  (await bench.post('/plan-searches', body).expect(202)).body.id;

test('events begin with how to come again and how far it is, go on with the progress, and end with the whole search', async () => {
  const app = await startApp();
  const id = await asked(app, { ...slowSearch(), options: { ...slowSearch().options, timeMs: 1500 } });
  const reply = await openEvents(app, id);
  expect(reply.headers.get('content-type')).toBe('text/event-stream');
  expect(reply.headers.get('cache-control')).toBe('no-store');
  const text = await reply.text();
  expect(text).toMatch(/^retry: \d+\n\nevent: progress\n/);
  const events = eventsIn(text);
  const progress = events.slice(0, -1);
  expect(progress.length).toBeGreaterThan(3);
  expect(new Set(progress.map(({ event }) => event))).toEqual(new Set(['progress']));
  const ids = progress.map((event) => Number(event.id));
  expect(ids).toEqual([...new Set(ids)].toSorted((a, b) => a - b));
  const running = progress.filter(({ data }) => data.state === 'running' && data['progress'] !== null);
  expect(running.length).toBeGreaterThan(1);
  expect(Object.keys(running.at(-1)!.data['progress'] as object)).toEqual([
    'workUnits',
    'workUnitsAllowed',
    'thermalRuns',
    'elapsedMs',
    'best',
  ]);
  expect(events.at(-1)).toMatchObject({
    event: 'end',
    id: 'end',
    data: { id, state: 'done', answer: { stats: { stoppedBy: 'time' } } },
  });
});

test('who lost the line comes again with Last-Event-ID: what was seen is not told again, and after the end there is nothing', async () => {
  const app = await startApp();
  const id = await asked(app, slowSearch());
  const line = new AbortController();
  const reader = (await openEvents(app, id, undefined, line.signal)).body!.getReader();
  let text = '';
  while (eventsIn(text).length < 2) text += Buffer.from((await reader.read()).value ?? []).toString();
  line.abort();
  const seen = eventsIn(text).at(-1)!.id;
  const rest = followSearch(app, id, seen);
  await app.bench.move(`/plan-searches/${id}`, { from: 'running', to: 'stopped' }).expect(200);
  const told = await rest;
  expect(told.map((event) => event.id)).not.toContain(seen);
  expect(told.at(-1)).toMatchObject({ event: 'end', data: { state: 'stopped' } });
  expect(await followSearch(app, id, seen)).toEqual([told.at(-1)]);
  const none = await openEvents(app, id, 'end');
  expect([none.status, await none.text()]).toEqual([204, '']);
  await app.stranger.get(`/plan-searches/${id}/events`).expect(401);
});

test('a server that ends notes what it had under way as interrupted, and tells those who follow; what a crash left is noted at the next start', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'hearthbook-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'book.sqlite');
  const first = await startApp({ file });
  const [running, waiting] = [await asked(first, slowSearch()), await asked(first, slowSearch())];
  await expect.poll(async () => (await first.bench.get(`/plan-searches/${running}`)).body.state).toBe('running');
  const followed = await openEvents(first, running);
  await first.http.close();
  expect(eventsIn(await followed.text()).at(-1)).toMatchObject({ event: 'end', data: { state: 'interrupted' } });

  const crashed = await startApp({ file });
  for (const id of [running, waiting]) {
    const { body } = await crashed.owner.get(`/plan-searches/${id}`).expect(200);
    expect(body).toMatchObject({
      state: 'interrupted',
      answer: null,
      allowedMoves: [],
      failure: expect.stringContaining('ask again'),
    });
  }
  const left = await asked(crashed, slowSearch());
  await expect.poll(async () => (await crashed.bench.get(`/plan-searches/${left}`)).body.state).toBe('running');
  // What a second server finds is what a crash of the first would have left.
  const next = await startApp({ file });
  expect((await next.owner.get(`/plan-searches/${left}`).expect(200)).body).toMatchObject({
    state: 'interrupted',
    endedAt: expect.any(String),
  });
  await crashed.bench.get('/health').expect(200);
});

test('five searches of two people at once: every one is answered, each in its turn, and the server answers all the while', async () => {
  const app = await startApp();
  const { bench, owner, student } = app;
  const ending = new AbortController();
  const health = (async () => {
    let answers = 0;
    while (!ending.signal.aborted) {
      await app.stranger.get('/health').expect(200);
      answers++;
    }
    return answers;
  })();
  const small = { ...unlikeProngs(4), options: {} };
  const ids = [
    ...(await Promise.all([1, 2, 3].map(() => asked(app, small)))),
    ...(await Promise.all([1, 2].map(async () => (await student.post('/plan-searches', small).expect(202)).body.id as string))),
  ];
  const answers = await Promise.all(ids.map(async (id) => (await overSearch(owner, id)).answer));
  ending.abort();
  expect(await health).toBeGreaterThan(5);
  const [first, ...others] = answers.map(({ plan, proof }) => ({ plan, proof }));
  for (const other of others) expect(other).toEqual(first);

  const slow = async () => bench.post('/plan-searches', slowSearch());
  for (const status of [202, 202, 202, 202, 429]) expect((await slow()).status).toBe(status);
  expect((await slow()).body).toMatchObject({
    type: '/api/v1/problems/too-many-requests',
    detail: expect.stringContaining('3 of yours wait already'),
  });
  await student.post('/plan-searches', small).expect(202);
});

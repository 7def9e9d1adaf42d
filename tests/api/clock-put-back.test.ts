import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'drizzle-orm';
import supertest from 'supertest';
import { expect, onTestFinished, test } from 'vitest';
import { dueWork } from '../../src/due-work.ts';
import { createWrongTries } from '../../src/features/private-links/wrong-tries.ts';
import { openDb } from '../../src/platform/db/client.ts';
import { continueIds, newId } from '../../src/platform/ids.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

const aCommission = (title: string) => ({ title, kind: 'own_stock' });

test('lists, pages, the journal and numbers keep the order of making', async () => {
  const { owner, clock } = await startApp();
  const titles = ['Beaker', 'Spoon', 'Clasp', 'Ring'];
  for (const title of titles) {
    await owner.post('/commissions', aCommission(title)).expect(201);
    clock.advance({ days: -400 });
  }
  const seen: { title: string }[] = [];
  for (let next = ''; ;) {
    const { body } = await owner.get(`/commissions?limit=1${next}`).expect(200);
    seen.push(...body.items);
    if (body.nextCursor === null) break;
    next = `&cursor=${body.nextCursor}`;
  }
  expect(seen.map(({ title }) => title)).toEqual(titles.toReversed());
  const lines = (await owner.get('/journal?what=commission&limit=200').expect(200)).body.items as { after: { title: string } }[];
  expect(lines.map(({ after }) => after.title)).toEqual(titles.toReversed());
});

test('ids go on after those of the book when the clock was put back while its server was off', () => {
  const { db, close } = openDb(':memory:', new Date('2031-05-05T08:00:00Z'));
  onTestFinished(close);
  const later = '0fffffff-ffff-7fff-bfff-ffffffffffff';
  for (const id of [later, 'ffffffff-ffff-7fff-bfff-ffffffffffff', 'zinc'])
    db.run(
      sql`INSERT INTO people (id, name, roles, created_at) VALUES (${id}, 'Basalt', '["bench"]', '2031-05-05T08:00:00.000Z')`,
    );
  const at = new Date('2031-05-05T08:00:00Z');
  expect(newId(at) > later).toBe(false);
  continueIds(db);
  const ids = [newId(at), newId(at), newId(new Date('2030-01-01T00:00:00Z'))];
  expect(ids[0]! > later).toBe(true);
  expect(ids.toSorted()).toEqual(ids);
});

test('sessions, and answers kept under their keys, hold; a month that was closed stays closed', async () => {
  const { owner, clock, actors, baseUrl } = await startApp();
  const signIn = { signInName: 'flint', password: 'a sentence is good' };
  await owner.patch(`/people/${actors.owner.personId}`, signIn, 1).expect(200);
  const browser = supertest.agent(baseUrl);
  await browser.post('/api/v1/sessions').send(signIn).expect(201);
  const keyed = () => owner.post('/commissions', aCommission('Beaker')).set('idempotency-key', 'commission-1');
  const first = await keyed().expect(201);
  await owner.post('/month-locks', { month: '2031-04' }).expect(201);
  clock.set('2031-04-10T08:00:00Z');
  await browser.get('/api/v1/sessions/current').expect(200);
  expect((await keyed().expect(201)).body.id).toBe(first.body.id);
  const time = { general: true, operation: 'filing' };
  const refused = await owner.post('/bench-times', time).expect(409);
  expect(refused.body).toMatchObject({ type: '/api/v1/problems/condition-not-met', month: '2031-04' });
});

test('a timer that began by the wrong clock is not stopped before it began; its beginning is put right, and it stops', async () => {
  const { bench, clock } = await startApp();
  const { body: timer } = await bench.post('/bench-times', { general: true, operation: 'filing' }).expect(201);
  clock.advance({ hours: -2 });
  const path = `/bench-times/${timer.id}`;
  const stop = () => bench.move(path, { from: 'running', to: 'stopped' }, clock.now());
  expect((await stop().expect(422)).body.errors).toContainEqual(expect.objectContaining({ pointer: '/stoppedAt' }));
  await bench.patch(path, { startedAt: clock.now().toISOString() }, timer.version).expect(200);
  clock.advance({ minutes: 20 });
  expect((await stop().expect(200)).body).toMatchObject({ state: 'stopped', minutes: 20 });
});

test('solder that is used after a lot was weighed or counted by the wrong clock is gone from the lot, and the books agree', async () => {
  const { owner, bench, clock } = await startApp({ clock: testClock('2031-05-05T12:00:00Z') });
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id, { quantityG: 20, receivedOn: '2031-05-01' });
  const other = await receiveLot(owner, product.id, { quantityG: 8, receivedOn: '2031-05-02' });
  const onHandG = async () => (await owner.get(`/solder-lots/${lot.id}`).expect(200)).body.onHandG;
  await bench.post(`/solder-lots/${lot.id}/weighings`, { weighedG: 19, reason: 'looked' }).expect(201);
  const use = (more: object = {}) =>
    bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 1, reason: 'rings', ...more });
  // What is booked late, for a time before it was weighed, is in the weight.
  await use({ occurredAt: '2031-05-05T11:00:00Z' }).expect(201);
  expect(await onHandG()).toBe(19);
  clock.advance({ hours: -3 });
  await use().expect(201);
  expect(await onHandG()).toBe(18);
  clock.advance({ hours: 3, minutes: 1 });
  const take = (await owner.post('/stocktakes', {}).expect(201)).body;
  const counts = [
    { lotId: lot.id, weighedG: 18 },
    { lotId: other.id, weighedG: 8 },
  ];
  await owner.post(`/stocktakes/${take.id}/counts`, { counts }).expect(201);
  await owner.move(`/stocktakes/${take.id}`, { from: 'counting', to: 'compared' }, clock.now()).expect(200);
  await owner.move(`/stocktakes/${take.id}`, { from: 'compared', to: 'posted' }, clock.now()).expect(200);
  clock.advance({ hours: -3 });
  await use().expect(201);
  expect(await onHandG()).toBe(17);
  expect((await owner.get(`/stock-movements?lotId=${lot.id}&limit=1`).expect(200)).body.items[0]).toMatchObject({ kind: 'use' });
  clock.advance({ hours: 4 });
  await use({ occurredAt: '2031-05-05T11:30:00Z' }).expect(422);
  expect((await owner.post('/stock/audit').expect(200)).body.ok).toBe(true);
});

async function backedUp(): Promise<{ app: TestApp; away: string; due: () => Promise<void> }> {
  const top = mkdtempSync(join(tmpdir(), 'hearthbook-clock-'));
  onTestFinished(() => rmSync(top, { recursive: true, force: true }));
  const away = join(top, 'away');
  mkdirSync(away);
  const app = await startApp({ file: join(top, 'hearthbook.sqlite') });
  const { version } = (await app.owner.get('/settings').expect(200)).body;
  await app.owner
    .patch('/settings', { backups: { folder: away, keepDays: 1, keepWeeks: 1, keepMonths: 1 } }, version)
    .expect(200);
  const due = async () => {
    for (const { run } of dueWork(app, app.services)) run();
    await app.services.backups.idle();
  };
  return { app, away, due };
}

test('backups are made and checked as if those of the wrong time were not there, once, and none of now is removed for them', async () => {
  const { app, away, due } = await backedUp();
  const states = async () =>
    ((await app.owner.get('/backups').expect(200)).body.items as { begunAt: string; state: string; checkedAt: string }[]).map(
      ({ begunAt, state, checkedAt }) => [begunAt.slice(0, 10), state, checkedAt?.slice(0, 10) ?? null],
    );
  await due();
  await due();
  expect(await states()).toEqual([['2031-05-05', 'kept', '2031-05-05']]);
  app.clock.set('2029-05-05T08:00:00Z');
  await due();
  await due();
  await due();
  expect(await states()).toEqual([
    ['2029-05-05', 'kept', '2029-05-05'],
    // By the rule, as one of before.
    ['2031-05-05', 'removed', '2031-05-05'],
  ]);
  expect(readdirSync(away)).toHaveLength(1);
  const { body } = await app.owner.get('/backups/standing').expect(200);
  expect(body).toMatchObject({ lastKeptAt: '2029-05-05T08:00:00.000Z', warnings: [] });
  rmSync(away, { recursive: true });
  app.clock.set('2029-05-06T08:00:00Z');
  await due();
  app.clock.set('2029-05-05T18:00:00Z');
  mkdirSync(away);
  await due();
  expect((await states())[0]).toEqual(['2029-05-06', 'failed', null]);
  app.clock.set('2029-05-06T08:30:00Z');
  await due();
  expect((await states())[0]).toEqual(['2029-05-06', 'failed', null]);
  app.clock.set('2029-05-06T09:00:00Z');
  await due();
  expect((await states())[0]).toEqual(['2029-05-06', 'kept', null]);
});

test('two backups of one second have files of their own', async () => {
  const { app, away } = await backedUp();
  for (let nth = 0; nth < 2; nth++) {
    await app.owner.post('/backups').expect(202);
    await app.services.backups.idle();
    app.clock.advance({ seconds: 0.4 });
  }
  const { items } = (await app.owner.get('/backups').expect(200)).body as { items: { fileName: string; state: string }[] };
  expect(items.map(({ state }) => state)).toEqual(['kept', 'removed']);
  expect(readdirSync(away)).toEqual([items[0]!.fileName]);
});

test('whoever guessed at links is let in an hour after the clock was put back, not when it has caught up', () => {
  const clock = testClock();
  const tries = createWrongTries(clock);
  for (let n = 0; n < 20; n++) tries.add('192.0.2.7');
  expect(tries.tooMany('192.0.2.7')).toBe(true);
  clock.advance({ hours: -5 });
  expect(tries.tooMany('192.0.2.7')).toBe(false);
});

import { sql } from 'drizzle-orm';
import supertest from 'supertest';
import { expect, test } from 'vitest';
import { ACCESS } from '../../src/platform/http/access-table.ts';
import { aDrawer, aDrawnPiece, issueMetal, planInUse, readiness } from '../support/at-the-bench.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

const PASSWORD = 'a sentence is good';

/** A browser with its cookies on a device. */
const browserOn = ({ baseUrl }: TestApp) => {
  const agent = supertest.agent(baseUrl);
  return {
    get: (path: string) => agent.get(`/api/v1${path}`),
    post: (path: string, body: object = {}) => agent.post(`/api/v1${path}`).send(body),
    delete: (path: string) => agent.delete(`/api/v1${path}`),
    patch: (path: string, body: object) => agent.patch(`/api/v1${path}`).set('if-match', '"1"').send(body),
  };
};

/** A tablet that the owner made one, with a bench hand and the owner who have a PIN. */
async function aTablet() {
  const app = await startApp();
  const { owner, bench, actors } = app;
  const { body: signIn } = await owner.get(`/people/${actors.owner.personId}`).expect(200);
  await owner.patch(`/people/${signIn.id}`, { signInName: 'flint', password: PASSWORD }, 1).expect(200);
  const tablet = browserOn(app);
  await tablet.post('/sessions', { signInName: 'flint', password: PASSWORD }).expect(201);
  const { body: made } = await tablet.post('/shared-tablets', { name: 'Anvil' }).expect(201);
  await bench.post('/pins', { pin: '2718' }).expect(201);
  await owner.post('/pins', { pin: '314159' }).expect(201);
  const unlock = (person: 'owner' | 'bench' | 'student' | 'desk', pin: string) =>
    tablet.post('/shared-tablets/current/unlocks', { personId: actors[person].personId, pin });
  return { ...app, tablet, unlock, id: made.id as string };
}

test('a tablet starts locked, is unlocked by a PIN, and one person takes the place of another', async () => {
  const { tablet, unlock, actors } = await aTablet();
  expect((await tablet.get('/shared-tablets/current').expect(200)).body).toEqual({
    tablet: { id: expect.any(String), name: 'Anvil' },
    people: [
      { personId: actors.bench.personId, name: 'Basalt' },
      { personId: actors.owner.personId, name: 'Flint' },
    ],
    unlockedBy: null,
    locksAt: null,
  });
  await tablet.get('/sessions/current').expect(401);
  expect((await unlock('bench', '2718').expect(201)).body).toEqual({
    personId: actors.bench.personId,
    name: 'Basalt',
    locksAt: '2031-05-05T08:10:00.000Z',
  });
  expect((await tablet.get('/sessions/current').expect(200)).body).toMatchObject({ name: 'Basalt', roles: ['bench', 'student'] });
  await unlock('owner', '314159').expect(201);
  expect((await tablet.get('/shared-tablets/current').expect(200)).body).toMatchObject({ unlockedBy: { name: 'Flint' } });
  await tablet.delete('/sessions/current').expect(204);
  await tablet.get('/sessions/current').expect(401);
});

test('a PIN is good for the work at the bench alone, whoever’s it is', async () => {
  const { tablet, unlock, actors, owner } = await aTablet();
  await unlock('owner', '314159').expect(201);
  expect((await tablet.get('/sessions/current').expect(200)).body.roles).toEqual(['bench', 'student']);
  const call = (method: string, path: string) =>
    method === 'GET' ? tablet.get(path) : method === 'DELETE' ? tablet.delete(path) : tablet.post(path);
  let refused = 0;
  for (const [route, access] of Object.entries(ACCESS)) {
    const [method, path] = route.split(' ') as [string, string];
    const isBenchWork =
      access === 'open' ||
      access === 'anyone' ||
      (access !== 'not_by_pin' && access.some((role) => ['bench', 'student'].includes(role)));
    if (isBenchWork || !['GET', 'DELETE', 'POST'].includes(method)) continue;
    refused++;
    const { status } = await call(method, path.replace(/:\w+/g, actors.bench.personId));
    expect([route, status]).toEqual([route, 403]);
  }
  expect(refused).toBeGreaterThan(40);
  const words = (await tablet.post('/tokens', { name: 'mine' }).expect(403)).body.detail as string;
  expect(words).toContain('Cannot do this by a PIN');
  // What is written there says on which tablet.
  const { body: time } = await tablet.post('/bench-times', { general: true, operation: 'sweeping' }).expect(201);
  const { body: lines } = await owner.get(`/journal?thingId=${time.id}`).expect(200);
  expect(lines.items[0]).toMatchObject({ person: 'Flint', deviceId: 'tablet Anvil' });
});

test('a heat is primed and lit at the tablet, by the one whose PIN it was', async () => {
  const app = await aTablet();
  const { tablet, unlock, bench, actors } = app;
  const { lots } = await aDrawer(app);
  const piece = await aDrawnPiece(app);
  const { heats } = await planInUse(bench, piece.id);
  await issueMetal(bench, piece.id);
  await unlock('bench', '2718').expect(201);
  const ready = { occurredAt: '2031-05-05T08:00:00Z', deviceId: 'tablet-1', ...(await readiness(bench, heats[0]!.id, lots)) };
  const path = `/heats/${heats[0]!.id}/moves`;
  await tablet
    .post(path, { ...ready, deviceSeq: 1 })
    .set('idempotency-key', 'tablet-0001')
    .expect(200);
  const alight = { occurredAt: '2031-05-05T08:00:00Z', deviceId: 'tablet-1', deviceSeq: 2, from: 'primed', to: 'alight' };
  const { body } = await tablet.post(path, alight).set('idempotency-key', 'tablet-0002').expect(200);
  expect(body).toMatchObject({ state: 'alight', litBy: actors.bench.personId });
});

test('a tablet locks itself too when the clock is put back by longer than it would have stayed open', async () => {
  const { tablet, unlock, clock } = await aTablet();
  await unlock('bench', '2718').expect(201);
  clock.advance({ minutes: -9 });
  await tablet.get('/heats').expect(200);
  clock.advance({ minutes: -1 });
  await tablet.get('/heats').expect(401);
  expect((await tablet.get('/shared-tablets/current').expect(200)).body).toMatchObject({ unlockedBy: null, locksAt: null });
  await unlock('bench', '2718').expect(201);
  await tablet.get('/heats').expect(200);
});

test('nobody waits for a PIN longer than an hour because the clock was put back', async () => {
  const { unlock, clock } = await aTablet();
  for (let wrong = 0; wrong < 3; wrong++) await unlock('bench', '0000').expect(401);
  expect((await unlock('bench', '2718').expect(429)).body.retryAfterS).toBe(30);
  clock.advance({ hours: -5 });
  await unlock('bench', '2718').expect(201);
});

test('a tablet locks itself, and looking alone does not keep it open', async () => {
  const { tablet, unlock, clock, owner } = await aTablet();
  await unlock('bench', '2718').expect(201);
  clock.advance({ minutes: 9 });
  await tablet.get('/heats').expect(200);
  await tablet.post('/bench-times', { general: true, operation: 'sweeping' }).expect(201);
  clock.advance({ minutes: 9 });
  expect((await tablet.post('/shared-tablets/current/touches').expect(200)).body).toEqual({
    locksAt: '2031-05-05T08:28:00.000Z',
  });
  clock.advance({ minutes: 9 });
  await tablet.get('/heats').expect(200);
  clock.advance({ minutes: 1 });
  const locked = await tablet.get('/heats').expect(401);
  expect(locked.body).toMatchObject({ type: '/api/v1/problems/tablet-locked', status: 401 });
  await tablet.post('/shared-tablets/current/touches').expect(401);
  expect((await tablet.get('/shared-tablets/current').expect(200)).body).toMatchObject({ unlockedBy: null, locksAt: null });
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { sharedTablets: { lockMinutes: 30 } }, version).expect(200);
  expect((await unlock('bench', '2718').expect(201)).body.locksAt).toBe('2031-05-05T08:58:00.000Z');
});

test('wrong PINs are slowed, for the person and for the tablet, also when they come all at once', async () => {
  const { unlock, clock, actors, owner } = await aTablet();
  const answers = await Promise.all(Array.from({ length: 6 }, (_, index) => unlock('bench', `99${index}0`)));
  expect(answers.map(({ status }) => status).toSorted((a, b) => a - b)).toEqual([401, 401, 401, 429, 429, 429]);
  const slowed = await unlock('bench', '2718').expect(429);
  expect(slowed.body).toMatchObject({ type: '/api/v1/problems/too-many-requests', retryAfterS: 30 });
  expect(slowed.headers['retry-after']).toBe('30');
  // Others are not held up, and their right PIN buys no try at somebody else's.
  await unlock('owner', '314159').expect(201);
  await unlock('bench', '2718').expect(429);
  for (const waitS of [30, 60, 120, 240, 480, 960, 1920, 3600, 3600]) {
    clock.advance({ seconds: waitS - 1 });
    await unlock('bench', '1111').expect(429);
    clock.advance({ seconds: 1 });
    await unlock('bench', '9999').expect(401);
  }
  // Twelve wrong ones by now: the tablet waits too, whoever tries.
  expect((await unlock('owner', '314159').expect(429)).body.retryAfterS).toBeGreaterThan(30);
  clock.advance({ hours: 1 });
  await unlock('bench', '2718').expect(201);
  await unlock('bench', '9999').expect(401);
  const { body } = await owner.get(`/journal?thingId=${actors.bench.personId}`).expect(200);
  expect(body.items[0]).toMatchObject({ what: 'session', after: { unlocked: 'Anvil' }, deviceId: 'tablet Anvil' });
});

test('a PIN is neither easily guessed, nor shown again, nor kept as it is', async () => {
  const { bench, desk, db } = await aTablet();
  for (const pin of ['1234', '9876', '7777', '12', '123456789', 'abcd', '12 4', '']) {
    const { body } = await bench.post('/pins', { pin }).expect(422);
    expect([pin, body.errors]).toEqual([
      pin,
      [{ pointer: '/pin', detail: expect.stringMatching(/4 to 8 digits|Not all alike/) }],
    ]);
  }
  expect((await bench.post('/pins', { pin: 2718 }).expect(422)).body.errors[0]).not.toHaveProperty('given');
  expect((await desk.post('/pins', { pin: '2718' }).expect(409)).body.detail).toContain('work at the bench');
  const kept = db.all<{ pin_hash: string }>(sql`SELECT pin_hash FROM pins`);
  // Memory-hard: scrypt with N = 2^16, r = 8 takes 64 MiB.
  for (const { pin_hash } of kept) expect(pin_hash).toMatch(/^scrypt\$65536\$8\$2\$[\w-]{22}\$[\w-]{43}$/);
  expect(new Set(kept.map(({ pin_hash }) => pin_hash)).size).toBe(2);
});

test('the owner resets a PIN: the old one is over at once, and a code is good once, for a day, for that person', async () => {
  const { tablet, unlock, owner, bench, student, actors, clock } = await aTablet();
  await unlock('bench', '2718').expect(201);
  await bench.post(`/pins/${actors.bench.personId}/codes`).expect(403);
  const { code } = (await owner.post(`/pins/${actors.bench.personId}/codes`).expect(201)).body;
  await tablet.get('/sessions/current').expect(401);
  await unlock('bench', '2718').expect(401);
  const choose = (person: 'bench' | 'student', pin: string, by = code as string) =>
    tablet.post('/shared-tablets/current/pins', { personId: actors[person].personId, code: by, pin });
  await choose('bench', '1111').expect(422);
  await choose('bench', '1618').expect(201);
  await choose('bench', '1619').expect(403);
  await unlock('bench', '1618').expect(201);
  // A student without a password of their own.
  const late = (await owner.post(`/pins/${actors.student.personId}/codes`).expect(201)).body.code as string;
  await choose('bench', '4040', late).expect(403);
  clock.advance({ hours: 25 });
  await choose('student', '5050', (await owner.post(`/pins/${actors.student.personId}/codes`).expect(201)).body.code).expect(201);
  expect((await unlock('student', '5050').expect(201)).body.name).toBe('Pebble');
  await student.delete(`/pins/${actors.bench.personId}`).expect(404);
  await student.delete(`/pins/${actors.student.personId}`).expect(204);
  await tablet.get('/sessions/current').expect(401);
  await owner.post(`/pins/${actors.desk.personId}/codes`).expect(409);
});

test('a device is a shared tablet until the owner says otherwise', async () => {
  const app = await aTablet();
  const { tablet, unlock, owner, bench, id, actors } = app;
  await unlock('bench', '2718').expect(201);
  await bench.delete(`/shared-tablets/${id}`).expect(403);
  expect((await owner.get('/shared-tablets').expect(200)).body.items).toMatchObject([{ id, name: 'Anvil', revokedAt: null }]);
  await owner.delete(`/shared-tablets/${id}`).expect(200);
  await tablet.get('/heats').expect(401);
  await unlock('bench', '2718').expect(401);
  expect((await tablet.get('/shared-tablets/current').expect(200)).body.tablet).toBeNull();
  const other = browserOn(app);
  const refused = await other
    .post('/shared-tablets/current/unlocks', { personId: actors.bench.personId, pin: '2718' })
    .expect(401);
  expect(refused.body.detail).toContain('no shared tablet');
});

test('a tutor says yes to a student’s heat by a PIN, at the bench; a hand without the mark does not', async () => {
  const app = await aTablet();
  const { tablet, unlock, bench, actors } = app;
  await aDrawer(app);
  const piece = await aDrawnPiece(app, { kind: 'teaching_piece' });
  const { heats } = await planInUse(bench, piece.id);
  const yes = () => tablet.post(`/heats/${heats[0]!.id}/tutors-yes`, { studentId: actors.student.personId, yes: true });
  await unlock('bench', '2718').expect(201);
  await yes().expect(403);
  await unlock('owner', '314159').expect(201);
  expect((await yes().expect(200)).body.tutorsYes).toMatchObject([{ studentId: actors.student.personId }]);
});

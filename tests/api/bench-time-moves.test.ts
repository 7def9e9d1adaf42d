import { expect, test } from 'vitest';
import { runDueBenchTimes } from '../../src/features/bench-time/bench-time-due-work.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { startApp, type Person } from '../support/start-app.ts';

const timer = async (person: Person, body: object = { general: true }): Promise<string> =>
  (await person.post('/bench-times', { operation: 'filing', ...body }).expect(201)).body.id;

test('a timer is stopped when the move was made, or when it is said', async () => {
  const { bench, clock } = await startApp();
  const id = await timer(bench);
  clock.advance({ minutes: 50 });
  const stopped = await bench.move(`/bench-times/${id}`, { from: 'running', to: 'stopped' }, '2031-05-05T08:40:00Z').expect(200);
  expect(stopped.body).toMatchObject({ state: 'stopped', minutes: 40, allowedMoves: ['agreed'], version: 2 });
  const again = await bench.move(`/bench-times/${id}`, { from: 'running', to: 'stopped' }).expect(409);
  expect(again.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'stopped', allowed: ['agreed'] });
  const agreed = await bench.move(`/bench-times/${id}`, { from: 'stopped', to: 'agreed' }, clock.now()).expect(200);
  expect(agreed.body).toMatchObject({ state: 'agreed', minutes: 40 });
  // Locking is the clock's own.
  await bench.move(`/bench-times/${id}`, { from: 'agreed', to: 'locked' }, clock.now()).expect(403);
  await bench.move(`/bench-times/${id}`, { from: 'agreed', to: 'running' }, clock.now()).expect(409);
  const said = await timer(bench);
  clock.advance({ minutes: 30 });
  const answer = await bench
    .move(`/bench-times/${said}`, { from: 'running', to: 'stopped', stoppedAt: '2031-05-05T09:05:00Z' }, clock.now())
    .expect(200);
  expect(answer.body.minutes).toBe(15);
});

test('a stop before the start, in the future or over 12 h is refused', async () => {
  const { bench, clock } = await startApp();
  const id = await timer(bench);
  clock.advance({ hours: 13 });
  const stop = (stoppedAt: string) =>
    bench.move(`/bench-times/${id}`, { from: 'running', to: 'stopped', stoppedAt }, '2031-05-05T20:59:00Z').expect(422);
  for (const at of ['2031-05-05T07:59:00Z', '2031-05-05T22:00:00Z', '2031-05-05T20:30:00Z']) {
    const refused = await stop(at);
    expect(refused.body.errors).toMatchObject([{ pointer: '/stoppedAt', given: expect.any(String) }]);
    expect(refused.body.errors[0].confirmable).toBeUndefined();
  }
  expect((await stop('2031-05-05T13:00:00Z')).body.errors[0].confirmable).toBe(true);
  await bench
    .move(`/bench-times/${id}`, { from: 'running', to: 'stopped', stoppedAt: '2031-05-05T13:00:00Z' }, '2031-05-05T20:59:00Z')
    .set({ confirm: '/stoppedAt', 'confirm-reason': 'one long raising' })
    .expect(200);
});

test('a timer over 4 h falls in doubt by the clock, and is agreed once its stop is said', async () => {
  const app = await startApp();
  const piece = putPiece(app, await aCommission(app.desk));
  const id = await timer(app.bench, { pieceId: piece.id });
  app.clock.advance({ hours: 4 });
  runDueBenchTimes(app);
  expect((await app.bench.get(`/bench-times/${id}`)).body.state).toBe('running');
  await app.bench.get('/commissions');
  app.clock.advance({ seconds: 1 });
  runDueBenchTimes(app);
  runDueBenchTimes(app);
  const doubted = await app.bench.get('/bench-times/current').expect(200);
  expect(doubted.body).toMatchObject({
    running: null,
    inDoubt: [
      {
        benchTime: { id, state: 'in_doubt', stoppedAt: null, version: 2 },
        says: 'You were on C31-001.1 from 08:00. When did you stop?',
        suggestedStoppedAt: null,
      },
    ],
  });
  const journal = await app.owner.get(`/journal?thingId=${id}`).expect(200);
  expect(journal.body.items[0]).toMatchObject({ what: 'bench_time', person: null, after: { state: 'in_doubt' } });
  const agree = (extra: object) => app.bench.move(`/bench-times/${id}`, { from: 'in_doubt', to: 'agreed', ...extra });
  const unsaid = await agree({}).expect(409);
  expect(unsaid.body).toMatchObject({
    type: '/api/v1/problems/condition-not-met',
    detail: 'Cannot agree to this time: You were on C31-001.1 from 08:00. When did you stop?',
  });
  const agreed = await agree({ stoppedAt: '2031-05-05T09:10:00Z' }).expect(200);
  expect(agreed.body).toMatchObject({ state: 'agreed', minutes: 70 });
});

test('starting a timer after a forgotten one puts that in doubt, and never cuts it in silence', async () => {
  const { bench, clock } = await startApp();
  const id = await timer(bench);
  clock.advance({ hours: 5 });
  const next = await bench.post('/bench-times', { general: true, operation: 'sweeping' }).expect(201);
  expect(next.body.stoppedBefore).toMatchObject({
    benchTime: { id, state: 'in_doubt', stoppedAt: null },
    says: 'You were on filing from 08:00. When did you stop?',
  });
});

test('the last thing written suggests when a forgotten timer stopped', async () => {
  const app = await startApp();
  await timer(app.desk);
  app.clock.advance({ minutes: 25 });
  await aCommission(app.desk, { kind: 'own_stock', clientId: null, dueOn: null });
  app.clock.advance({ hours: 6 });
  runDueBenchTimes(app);
  const current = await app.desk.get('/bench-times/current').expect(200);
  expect(current.body.inDoubt[0].suggestedStoppedAt).toBe('2031-05-05T08:25:00.000Z');
});

test('a hand sees and moves their own times only; the owner sees and agrees to all', async () => {
  const { owner, bench, desk, stranger, actors, clock } = await startApp();
  const id = await timer(bench);
  await desk.get(`/bench-times/${id}`).expect(404);
  await desk.move(`/bench-times/${id}`, { from: 'running', to: 'stopped' }).expect(404);
  expect((await desk.get('/bench-times').expect(200)).body.items).toEqual([]);
  await desk.get(`/bench-times?personId=${actors.bench.personId}`).expect(403);
  await stranger.get('/bench-times').expect(401);
  expect((await owner.get(`/bench-times?personId=${actors.bench.personId}`)).body.items).toHaveLength(1);
  // Only the person stops their timer.
  const seen = await owner.get(`/bench-times/${id}`).expect(200);
  expect(seen.body.allowedMoves).toEqual([]);
  await owner.move(`/bench-times/${id}`, { from: 'running', to: 'stopped' }).expect(403);
  clock.advance({ minutes: 10 });
  await bench.move(`/bench-times/${id}`, { from: 'running', to: 'stopped' }, clock.now()).expect(200);
  await owner.move(`/bench-times/${id}`, { from: 'stopped', to: 'agreed' }, clock.now()).expect(200);
});

test('PATCH /bench-times/:id mends what was done and when, by the version that was read', async () => {
  const { bench, clock } = await startApp();
  clock.set('2031-05-05T12:00:00Z');
  const id = await timer(bench, { general: true, startedAt: '2031-05-05T09:00:00Z', stoppedAt: '2031-05-05T10:00:00Z' });
  await bench.patch(`/bench-times/${id}`, { operation: 'planishing' }).expect(428);
  await bench.patch(`/bench-times/${id}`, { operation: 'planishing' }, 9).expect(412);
  const mended = await bench
    .patch(`/bench-times/${id}`, { operation: 'planishing', startedAt: '2031-05-05T09:30:00Z', note: 'the rim' }, 1)
    .expect(200)
    .expect('etag', '"2"');
  expect(mended.body).toMatchObject({ operation: 'planishing', minutes: 30, note: 'the rim' });
  await bench.patch(`/bench-times/${id}`, { minutesByHand: 20 }, 2).expect(422);
  await bench.patch(`/bench-times/${id}`, { stoppedAt: '2031-05-05T09:00:00Z' }, 2).expect(422);
  const sum = await timer(bench, { general: true, minutesByHand: 20 });
  await bench.patch(`/bench-times/${sum}`, { stoppedAt: '2031-05-05T11:00:00Z' }, 1).expect(422);
  expect((await bench.patch(`/bench-times/${sum}`, { minutesByHand: 25 }, 1).expect(200)).body.minutes).toBe(25);
  const running = await timer(bench);
  await bench.patch(`/bench-times/${running}`, { stoppedAt: '2031-05-05T12:00:00Z' }, 1).expect(422);
});

test('moves without an Idempotency-Key are refused, and sent twice they move once', async () => {
  const { bench, clock } = await startApp();
  const id = await timer(bench);
  clock.advance({ minutes: 3 });
  const body = { from: 'running', to: 'stopped', occurredAt: '2031-05-05T08:02:00Z', deviceId: 'tablet-1', deviceSeq: 1 };
  await bench.post(`/bench-times/${id}/moves`, body).expect(422);
  const send = () => bench.post(`/bench-times/${id}/moves`, body).set('idempotency-key', 'stop-0001');
  const first = await send().expect(200);
  expect((await send().expect(200)).body).toEqual(first.body);
});

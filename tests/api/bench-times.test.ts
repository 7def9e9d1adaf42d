import { expect, test } from 'vitest';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { startApp } from '../support/start-app.ts';

test('POST /bench-times starts a timer on a piece, and GET /bench-times/current shows it', async () => {
  const app = await startApp();
  const piece = putPiece(app, await aCommission(app.desk));
  const started = await app.bench
    .post('/bench-times', { pieceId: piece.id, operation: 'sawing' })
    .expect(201)
    .expect('etag', '"1"');
  expect(started.body).toEqual({
    id: expect.any(String),
    personId: app.actors.bench.personId,
    personName: 'Basalt',
    pieceId: piece.id,
    pieceNumber: 'C31-001.1',
    heatId: null,
    operation: 'sawing',
    startedAt: '2031-05-05T08:00:00.000Z',
    stoppedAt: null,
    minutesByHand: null,
    minutes: null,
    state: 'running',
    note: null,
    correctsId: null,
    allowedMoves: ['stopped'],
    version: 1,
    createdAt: '2031-05-05T08:00:00.000Z',
    stoppedBefore: null,
  });
  const current = await app.bench.get('/bench-times/current').expect(200);
  const { stoppedBefore: _, ...running } = started.body;
  expect(current.body).toEqual({ running, inDoubt: [] });
  expect((await app.desk.get('/bench-times/current')).body).toEqual({ running: null, inDoubt: [] });
});

test('POST /bench-times stops the timer that ran, at that second, and says so', async () => {
  const app = await startApp();
  const piece = putPiece(app, await aCommission(app.desk));
  const first = await app.bench.post('/bench-times', { pieceId: piece.id, operation: 'sawing' }).expect(201);
  app.clock.advance({ minutes: 35, seconds: 30 });
  const second = await app.bench.post('/bench-times', { general: true, operation: 'sweeping' }).expect(201);
  expect(second.body.stoppedBefore).toMatchObject({
    benchTime: { id: first.body.id, state: 'stopped', stoppedAt: '2031-05-05T08:35:30.000Z', minutes: 35.5 },
    says: 'Stopped the timer on C31-001.1 at 2031-05-05T08:35:30.000Z, after 35.5 min',
  });
  const list = await app.bench.get('/bench-times?state=running').expect(200);
  expect(list.body.items.map(({ id }: { id: string }) => id)).toEqual([second.body.id]);
  // Two people on one piece at once is fine.
  await app.owner.post('/bench-times', { pieceId: piece.id, operation: 'sawing' }).expect(201);
});

test('POST /bench-times takes exactly one target that is there', async () => {
  const { bench, student, ...app } = await startApp();
  const nowhere = '01890a5d-ac96-774b-bcce-b302099a8057';
  const refused = async (body: object, pointers: string[]) => {
    const answer = await bench.post('/bench-times', { operation: 'filing', ...body }).expect(422);
    expect(answer.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(pointers);
  };
  await refused({}, ['/pieceId']);
  await refused({ general: true, pieceId: nowhere }, ['/pieceId']);
  await refused({ pieceId: nowhere }, ['/pieceId']);
  await refused({ heatId: nowhere }, ['/heatId']);
  await refused({ general: true, operation: '' }, ['/operation']);
  await refused({ general: true, stoppedAt: '2031-05-05T07:00:00Z' }, ['/startedAt']);
  await refused({ general: true, startedAt: '2031-05-05T06:00:00Z', stoppedAt: '2031-05-05T07:00:00Z', minutesByHand: 60 }, [
    '/minutesByHand',
  ]);
  await refused({ general: true, startedAt: '2031-05-05T09:00:00Z' }, ['/startedAt']);
  await refused({ general: true, startedAt: 'this morning' }, ['/startedAt']);
  await refused({ general: true, colour: 'red' }, ['/colour']);
  // A student works on teaching pieces only.
  const ring = putPiece({ ...app, bench, student }, await aCommission(app.desk));
  const practice = putPiece({ ...app, bench, student }, await aCommission(app.desk, { kind: 'teaching_piece', clientId: null }));
  await student.post('/bench-times', { pieceId: ring.id, operation: 'filing' }).expect(422);
  await student.post('/bench-times', { pieceId: practice.id, operation: 'filing' }).expect(201);
});

// On the night of 29 to 30 March 2031 Berlin puts its clocks forward: 23:40 to 03:25 on the wall, 225 minutes by its hands.
test('minutes are elapsed time on the night the clocks change', async () => {
  const { owner } = await startApp();
  await owner.patch('/settings', { timeZone: 'Europe/Berlin' }, 0).expect(200);
  const night = { general: true, operation: 'casting', startedAt: '2031-03-29T22:40:00Z', stoppedAt: '2031-03-30T01:25:00Z' };
  const made = await owner.post('/bench-times', night).expect(201);
  expect(made.body).toMatchObject({ minutes: 165, state: 'stopped' });
  const refused = await owner.post('/bench-times', night).expect(409);
  expect(refused.body.detail).toMatch(/overlaps 23:40–03:25 on casting/);
});

const span = (stoppedAt: string) => ({
  general: true,
  operation: 'polishing',
  startedAt: '2031-05-05T08:00:00Z',
  stoppedAt,
});

test('a span over 4 h is asked about and over 12 h refused', async () => {
  const { bench, clock } = await startApp();
  clock.set('2031-05-06T08:00:00Z');
  const asked = await bench.post('/bench-times', span('2031-05-05T12:00:06Z')).expect(422);
  expect(asked.body.errors).toMatchObject([{ pointer: '/stoppedAt', confirmable: true }]);
  const refused = await bench
    .post('/bench-times', span('2031-05-05T20:20:00Z'))
    .set({ confirm: '/stoppedAt', 'confirm-reason': 'a long day' })
    .expect(422);
  expect(refused.body.errors[0].detail).toMatch(/740\. Did the timer run on\?/);
  expect(refused.body.errors[0].confirmable).toBeUndefined();
  const backwards = await bench.post('/bench-times', span('2031-05-05T07:00:00Z')).expect(422);
  expect(backwards.body.errors[0].detail).toMatch(/before it started/);
  await bench
    .post('/bench-times', span('2031-05-05T20:00:00Z'))
    .set({ confirm: '/stoppedAt', 'confirm-reason': 'a long day' })
    .expect(201);
  await bench.post('/bench-times', { ...span('2031-05-06T01:00:00Z'), startedAt: '2031-05-05T21:00:00Z' }).expect(201);
});

test('minutes given by hand have fences of their own and no place in the day', async () => {
  const { bench } = await startApp();
  const byHand = (minutesByHand: number) => bench.post('/bench-times', { general: true, operation: 'drawing', minutesByHand });
  expect((await byHand(45).expect(201)).body).toMatchObject({ minutes: 45, stoppedAt: null, state: 'stopped' });
  await byHand(45).expect(201);
  await byHand(0).expect(422);
  await byHand(721).expect(422);
  const asked = await byHand(241).expect(422);
  expect(asked.body.errors).toMatchObject([{ pointer: '/minutesByHand', confirmable: true }]);
  await byHand(241).set({ confirm: '/minutesByHand', 'confirm-reason': 'two sittings' }).expect(201);
});

test('two spans of one person that overlap are refused, with both shown', async () => {
  const app = await startApp();
  const piece = putPiece(app, await aCommission(app.desk));
  app.clock.set('2031-05-05T16:00:00Z');
  const filed = (start: string, stop: string) => ({
    pieceId: piece.id,
    operation: 'filing',
    startedAt: `2031-05-05T${start}:00Z`,
    stoppedAt: `2031-05-05T${stop}:00Z`,
  });
  const kept = await app.bench.post('/bench-times', filed('10:05', '10:40')).expect(201);
  const refused = await app.bench
    .post('/bench-times', filed('10:30', '11:00'))
    .expect(409)
    .expect('content-type', /^application\/problem\+json/);
  expect(refused.body).toMatchObject({
    type: '/api/v1/problems/times-overlap',
    detail: 'Cannot keep this time: it overlaps 10:05–10:40 on C31-001.1; keep which?',
    asked: { startedAt: '2031-05-05T10:30:00.000Z', stoppedAt: '2031-05-05T11:00:00.000Z' },
    overlaps: [{ id: kept.body.id, minutes: 35 }],
    offers: [{ offer: 'cut_the_first' }, { offer: 'cut_the_second' }, { offer: 'split' }],
  });
  // Spans that meet do not overlap, and another person's never do.
  await app.bench.post('/bench-times', filed('10:40', '11:00')).expect(201);
  await app.owner.post('/bench-times', filed('10:30', '11:00')).expect(201);
  // A timer goes on for ever, so it overlaps what came after its start.
  const late = await app.bench.post('/bench-times', { general: true, operation: 'sweeping', startedAt: '2031-05-05T10:50:00Z' });
  expect(late.status).toBe(409);
  // Cut the first, then the second fits.
  await app.bench.patch(`/bench-times/${kept.body.id}`, { stoppedAt: '2031-05-05T10:20:00Z' }, 1).expect(200);
  await app.bench.post('/bench-times', filed('10:20', '10:30')).expect(201);
  const wider = await app.bench.patch(`/bench-times/${kept.body.id}`, { stoppedAt: '2031-05-05T10:25:00Z' }, 2).expect(409);
  expect(wider.body.type).toBe('/api/v1/problems/times-overlap');
});

test('POST /bench-times with an Idempotency-Key sent twice starts one timer', async () => {
  const { bench, clock } = await startApp();
  const send = () => bench.post('/bench-times', { general: true, operation: 'sweeping' }).set('idempotency-key', 'timer-0001');
  const first = await send().expect(201);
  clock.advance({ minutes: 5 });
  expect((await send().expect(201)).body).toEqual(first.body);
  const other = await bench
    .post('/bench-times', { general: true, operation: 'filing' })
    .set('idempotency-key', 'timer-0001')
    .expect(422);
  expect(other.body.type).toBe('/api/v1/problems/idempotency-key-reused');
});

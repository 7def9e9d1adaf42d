import { expect, test } from 'vitest';
import { runDueBenchTimes } from '../../src/features/bench-time/bench-time-due-work.ts';
import { startApp, testClock, type Person, type TestApp } from '../support/start-app.ts';

const span = async (person: Person, startedAt: string, stoppedAt: string): Promise<string> =>
  (await person.post('/bench-times', { general: true, operation: 'filing', startedAt, stoppedAt }).expect(201)).body.id;

async function inZone({ owner }: TestApp, given: object): Promise<void> {
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', given, version).expect(200);
}

const stateOf = async (person: Person, id: string): Promise<string> =>
  (await person.get(`/bench-times/${id}`).expect(200)).body.state;

test('a timer that runs an hour past closing was forgotten; one of an evening class has its four hours', async () => {
  const app = await startApp({ clock: testClock('2031-05-05T15:30:00Z') });
  await inZone(app, { timeZone: 'Europe/Berlin', closingTime: '18:30' });
  // 17:30 on the wall.
  const late = (await app.bench.post('/bench-times', { general: true, operation: 'filing' }).expect(201)).body.id;
  app.clock.set('2031-05-05T17:30:00Z');
  const evening = (await app.owner.post('/bench-times', { general: true, operation: 'teaching' }).expect(201)).body.id;
  runDueBenchTimes(app);
  expect(await stateOf(app.bench, late)).toBe('running');
  app.clock.advance({ seconds: 1 });
  runDueBenchTimes(app);
  expect(await stateOf(app.bench, late)).toBe('in_doubt');
  app.clock.set('2031-05-05T21:30:00Z');
  runDueBenchTimes(app);
  expect(await stateOf(app.owner, evening)).toBe('running');
  app.clock.advance({ seconds: 1 });
  runDueBenchTimes(app);
  expect(await stateOf(app.owner, evening)).toBe('in_doubt');
});

// On the night of 30 March 2031 Berlin's clocks go from 02:00 to 03:00: 22:40Z to 01:25Z is 23:40 to 03:25 on the wall, and
// 20 min of Saturday and 145 of Sunday, 165 in all, not 225.
test('a time over midnight stays one time, and its minutes fall to both days, on the night of clock change too', async () => {
  const app = await startApp({ clock: testClock('2031-03-30T09:00:00Z') });
  const { bench, owner, desk, actors } = app;
  await inZone(app, { timeZone: 'Europe/Berlin' });
  const id = await span(bench, '2031-03-29T22:40:00Z', '2031-03-30T01:25:00Z');
  expect((await bench.get(`/bench-times/${id}`)).body.minutes).toBe(165);
  await bench.post('/bench-times', { general: true, operation: 'phone', minutesByHand: 12 }).expect(201);
  const days = (await bench.get('/bench-times/days?from=2031-03-29&to=2031-03-31').expect(200)).body.items;
  expect(days).toMatchObject([
    { day: '2031-03-29', minutes: 20, entries: [{ benchTimeId: id, minutes: 20 }] },
    { day: '2031-03-30', minutes: 157, entries: [{ minutes: 145 }, { operation: 'phone', minutes: 12 }] },
  ]);
  const sunday = (await bench.get('/bench-times/days?from=2031-03-30&to=2031-03-30').expect(200)).body.items;
  expect(sunday).toMatchObject([{ day: '2031-03-30', minutes: 157 }]);
  expect(
    (await owner.get(`/bench-times/days?personId=${actors.bench.personId}&from=2031-03-29&to=2031-03-29`)).body.items,
  ).toHaveLength(1);
  await desk.get(`/bench-times/days?personId=${actors.bench.personId}&from=2031-03-29&to=2031-03-29`).expect(403);
  await bench.get('/bench-times/days?from=2031-03-29&to=2031-03-28').expect(422);
  // A week where only one end is given.
  expect((await bench.get('/bench-times/days?from=2031-03-29').expect(200)).body.items).toEqual(days);
  expect((await bench.get('/bench-times/days?to=2031-03-31').expect(200)).body.items).toEqual(days);
});

test('months are closed some days after their end, all that are over at once after a rest, and agreed times are locked', async () => {
  const app = await startApp({ clock: testClock('2031-03-12T09:00:00Z') });
  const { bench, owner } = app;
  const agree = async (id: string) =>
    bench.move(`/bench-times/${id}`, { from: 'stopped', to: 'agreed' }, app.clock.now()).expect(200);
  const march = await span(bench, '2031-03-12T08:00:00Z', '2031-03-12T08:30:00Z');
  const open = await span(bench, '2031-03-11T08:00:00Z', '2031-03-11T08:30:00Z');
  await agree(march);
  app.clock.set('2031-05-07T23:59:00Z');
  const april = await span(bench, '2031-04-30T08:00:00Z', '2031-04-30T08:45:00Z');
  await agree(april);
  runDueBenchTimes(app);
  expect(await stateOf(bench, march)).toBe('locked');
  // What nobody has agreed to yet is not locked; it is once it is agreed.
  expect([await stateOf(bench, open), await stateOf(bench, april)]).toEqual(['stopped', 'agreed']);
  await agree(open);
  app.clock.set('2031-05-08T00:00:00Z');
  runDueBenchTimes(app);
  runDueBenchTimes(app);
  expect([await stateOf(bench, open), await stateOf(bench, april)]).toEqual(['locked', 'locked']);
  const closed = (await owner.get('/month-locks').expect(200)).body.items;
  expect(closed.map(({ month, personId }: { month: string; personId: null }) => [month, personId])).toEqual([
    ['2031-04', null],
    ['2031-03', null],
  ]);
  const again = await bench.move(`/bench-times/${april}`, { from: 'agreed', to: 'locked' }, app.clock.now()).expect(409);
  expect(again.body).toMatchObject({ type: '/api/v1/problems/moved-on', state: 'locked', allowed: [] });
});

test('the owner may close a month sooner, once it is over, and once', async () => {
  const app = await startApp({ clock: testClock('2031-05-01T09:00:00Z') });
  const { owner, bench } = app;
  const id = await span(bench, '2031-04-30T08:00:00Z', '2031-04-30T08:45:00Z');
  await bench.move(`/bench-times/${id}`, { from: 'stopped', to: 'agreed' }, app.clock.now()).expect(200);
  await bench.post('/month-locks', { month: '2031-04' }).expect(403);
  expect((await owner.post('/month-locks', { month: '2031-05' }).expect(422)).body.errors[0].detail).toContain('not over yet');
  await owner.post('/month-locks', { month: '2031-13' }).expect(422);
  const lock = (await owner.post('/month-locks', { month: '2031-04' }).expect(201)).body;
  expect(lock).toMatchObject({ month: '2031-04', personId: app.actors.owner.personId });
  expect((await owner.post('/month-locks', { month: '2031-04' }).expect(409)).body.type).toBe('/api/v1/problems/already-used');
  expect(await stateOf(bench, id)).toBe('locked');
});

test('after the lock a time is corrected by another with a reason, and nothing is noted into the month', async () => {
  const app = await startApp({ clock: testClock('2031-05-01T09:00:00Z') });
  const { owner, bench, desk } = app;
  const id = await span(bench, '2031-04-30T08:00:00Z', '2031-04-30T08:45:00Z');
  const early = await bench.post(`/bench-times/${id}/corrections`, { minutes: -15, reason: 'the phone rang' }).expect(409);
  expect(early.body.detail).toContain('change the time itself');
  await bench.move(`/bench-times/${id}`, { from: 'stopped', to: 'agreed' }, app.clock.now()).expect(200);
  await owner.post('/month-locks', { month: '2031-04' }).expect(201);
  const closed = await bench.patch(`/bench-times/${id}`, { operation: 'sawing' }, 3).expect(409);
  expect(closed.body.detail).toContain('/corrections');
  const correction = await bench.post(`/bench-times/${id}/corrections`, { minutes: -15, reason: 'the phone rang' }).expect(201);
  expect(correction.body).toMatchObject({
    correctsId: id,
    minutes: -15,
    state: 'agreed',
    note: 'the phone rang',
    operation: 'filing',
  });
  expect((await bench.get(`/bench-times/${id}`)).body).toMatchObject({ minutes: 45, state: 'locked' });
  const tooFew = await bench.post(`/bench-times/${id}/corrections`, { minutes: -31, reason: 'and the door' }).expect(422);
  expect(tooFew.body.errors).toMatchObject([{ pointer: '/minutes', detail: 'Only 30 min are left of this time.' }]);
  await bench.post(`/bench-times/${id}/corrections`, { minutes: 5 }).expect(422);
  await desk.post(`/bench-times/${id}/corrections`, { minutes: 5, reason: 'not mine' }).expect(404);
  const twice = await bench.post(`/bench-times/${correction.body.id}/corrections`, { minutes: 5, reason: 'again' }).expect(409);
  expect(twice.body.detail).toContain('Cannot correct a correction');
  const late = { general: true, operation: 'phone', startedAt: '2031-04-29T08:00:00Z', stoppedAt: '2031-04-29T08:10:00Z' };
  expect((await bench.post('/bench-times', late).expect(409)).body).toMatchObject({ month: '2031-04' });
  const today = await span(bench, '2031-05-01T08:00:00Z', '2031-05-01T08:10:00Z');
  const moved = { startedAt: '2031-04-29T08:00:00Z', stoppedAt: '2031-04-29T08:10:00Z' };
  await bench.patch(`/bench-times/${today}`, moved, 1).expect(409);
});

import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { commissions } from '../../src/platform/db/tables.ts';
import { momentOf, startOfDay } from '../../src/platform/wall-time.ts';
import { putCommission, putQuote } from '../support/a-record.ts';
import { anEstimateRequest } from '../support/an-estimate-request.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';

const MONDAY = '2031-06-02T08:00:00Z';
const policy = { ratesPerHour: { bench: '24.00', desk: '24.00' } };

/** What is promised, each by its due date and the minutes it stays under eight times in ten: of a new studio, exp(0.8416 × 0.3) times. */
async function promised(app: TestApp, jobs: [string, string, number][]): Promise<void> {
  for (const [title, dueOn, eightInTen] of jobs) {
    const minutes = eightInTen / Math.exp(0.8416 * 0.3);
    const { id } = await putCommission(app, { state: 'agreed', title });
    app.db.update(commissions).set({ dueOn }).where(eq(commissions.id, id)).run();
    putQuote(app, id, anEstimateRequest({ labour: [{ operation: 'sawing', role: 'bench', minutes, factor: 1 }], policy }));
  }
}

// A worked week, by hand: one bench of 330 minutes a day from Monday 2 June 2031. The bangle has 450 min to spare, the brooch 220
// (3 h 40), the cup is 270 short: a day late.
test('GET /due-dates says whether it can be done, with what to spare, or how late', async () => {
  const app = await startApp({ clock: testClock(MONDAY) });
  const ask = async (dueOn: string, minutes: number) =>
    (await app.desk.get(`/due-dates?dueOn=${dueOn}&minutes=${minutes}`).expect(200)).body;
  expect(await ask('2031-06-04', 540)).toMatchObject({
    canBeDone: true,
    slackMinutes: 450,
    finishesOn: '2031-06-03',
    lateDays: 0,
  });
  await promised(app, [['Bangle', '2031-06-04', 540]]);
  expect(await ask('2031-06-05', 560)).toMatchObject({
    says: 'Yes, with 3 h 40 to spare',
    runningMinutes: 1100,
    capacityMinutes: 1320,
  });
  await promised(app, [['Brooch', '2031-06-05', 560]]);
  expect(await ask('2031-06-09', 1150)).toMatchObject({
    canBeDone: false,
    says: 'No, a day late: finished on 2031-06-10',
    slackMinutes: -270,
    finishesOn: '2031-06-10',
    lateDays: 1,
    madeLate: [],
  });
  await promised(app, [['Ring', '2031-06-11', 190]]);
  // The cup before the ring: 2440 of 2640 minutes, so the ring is in time; with 300 more it is not.
  expect((await ask('2031-06-09', 1150)).madeLate).toEqual([]);
  const pushed = await ask('2031-06-09', 1450);
  expect(pushed.madeLate).toMatchObject([{ dueOn: '2031-06-11', lateDays: 1 }]);
  expect(pushed.says).toMatch(/^No, 2 days late: finished on 2031-06-11; it would make C31-\d+ a day late$/);
  expect(await ask('2031-06-05', 0)).toMatchObject({ canBeDone: true, says: 'Yes, with 3 h 40 to spare' });
});

test('benches, absences and closed days make the days that a date is told by', async () => {
  const app = await startApp({ clock: testClock(MONDAY) });
  const { owner, bench, desk, student, actors } = app;
  const until = async (dueOn: string) => (await desk.get(`/due-dates?dueOn=${dueOn}&minutes=1`).expect(200)).body.capacityMinutes;
  expect(await until('2031-06-06')).toBe(5 * 330);
  const anvil = (await owner.post('/benches', { name: 'Anvil', personId: actors.bench.personId, minutesPerDay: 300 }).expect(201))
    .body;
  await owner.post('/benches', { name: 'Lantern', personId: actors.owner.personId }).expect(201);
  await owner.post('/benches', { name: 'Heron' }).expect(201);
  // Nobody works at the third; the second has the minutes of the setting.
  expect(await until('2031-06-06')).toBe(5 * 630);
  const fair = { personId: actors.owner.personId, firstOn: '2031-06-05', lastOn: '2031-06-07', reason: 'fair' };
  const away = (await desk.post('/absences', fair).expect(201)).body;
  expect(await until('2031-06-06')).toBe(5 * 630 - 2 * 330);
  const evenings = { firstOn: '2031-06-03', lastOn: '2031-07-31', weekly: true, minutesPerDay: 100, reason: 'evening class' };
  await bench.post('/absences', { ...evenings, personId: actors.bench.personId }).expect(201);
  expect(await until('2031-06-10')).toBe(7 * 630 - 2 * 330 - 2 * 100);
  await desk.post('/absences', { firstOn: '2031-06-09', lastOn: '2031-06-09', reason: 'closed for the assay' }).expect(201);
  expect(await until('2031-06-10')).toBe(6 * 630 - 2 * 330 - 2 * 100);
  await desk.patch(`/absences/${away.id}`, { lastOn: '2031-06-05' }, 1).expect(200);
  expect(await until('2031-06-10')).toBe(6 * 630 - 330 - 200);
  await desk.delete(`/absences/${away.id}`).expect(204);
  await desk.get(`/absences/${away.id}`).expect(404);
  expect((await owner.get(`/journal?thingId=${away.id}`)).body.items[0]).toMatchObject({ what: 'absence', after: null });
  await owner.patch(`/benches/${anvil.id}`, { active: false }, 1).expect(200);
  expect(await until('2031-06-10')).toBe(6 * 330);
  await owner.patch('/settings', { openWeekdays: [2, 3] }, 0).expect(200);
  expect(await until('2031-06-10')).toBe(3 * 330);
  const { about } = (await desk.get('/due-dates?dueOn=2031-06-10&minutes=1')).body;
  expect(about[1]).toBe('Working days are Tuesday, Wednesday, less closed days and absences; today counts whole');
  await student.get('/due-dates?dueOn=2031-06-10&minutes=1').expect(403);
});

test('a bench has one name and one person, and an absence an order', async () => {
  const { owner, desk, bench, actors } = await startApp();
  const { personId } = actors.bench;
  const anvil = (await owner.post('/benches', { name: 'Anvil', personId }).expect(201).expect('etag', '"1"')).body;
  expect(anvil).toMatchObject({ name: 'Anvil', personId, minutesPerDay: null, active: true });
  expect((await owner.post('/benches', { name: 'Anvil' }).expect(409)).body.type).toBe('/api/v1/problems/already-used');
  expect((await owner.post('/benches', { name: 'Heron', personId }).expect(409)).body.detail).toContain('they work at Anvil');
  await owner.post('/benches', { name: 'Heron', personId: anvil.id }).expect(422);
  await owner.patch(`/benches/${anvil.id}`, { name: 'Lantern' }).expect(428);
  await owner.patch(`/benches/${anvil.id}`, { name: 'Lantern' }, 7).expect(412);
  expect(
    (await owner.patch(`/benches/${anvil.id}`, { name: 'Lantern', personId: null }, 1).expect(200)).body.personId,
  ).toBeNull();
  expect((await bench.get('/benches').expect(200)).body.items).toMatchObject([{ name: 'Lantern' }]);
  await bench.post('/benches', { name: 'Heron' }).expect(403);
  const wrong = await desk.post('/absences', { firstOn: '2031-06-05', lastOn: '2031-06-04', reason: 'fair' }).expect(422);
  expect(wrong.body.errors).toMatchObject([{ pointer: '/lastOn' }]);
  const away = (await desk.post('/absences', { firstOn: '2031-06-05', lastOn: '2031-06-05', reason: 'fair' }).expect(201)).body;
  await desk.patch(`/absences/${away.id}`, { firstOn: '2031-06-06' }, 1).expect(422);
  expect((await desk.get('/absences?limit=1').expect(200)).body).toMatchObject({ items: [{ id: away.id }], nextCursor: null });
  await owner.patch('/settings', { closingTime: '25:00', openWeekdays: [1, 1] }, 0).expect(422);
});

function berlin(date: string, time: string): string {
  return momentOf(date, time, 'Europe/Berlin').toISOString();
}

test('momentOf() is the wall clock’s, in summer and winter, in an hour that is skipped and one that comes twice', () => {
  expect(berlin('2031-07-01', '18:00')).toBe('2031-07-01T16:00:00.000Z');
  expect(berlin('2031-01-15', '18:00')).toBe('2031-01-15T17:00:00.000Z');
  // In the night of 30 March 2031 the clocks of Berlin go from 02:00 to 03:00 at 01:00 UTC, and on 26 October from 03:00 to 02:00.
  expect(berlin('2031-03-30', '02:30')).toBe('2031-03-30T01:30:00.000Z');
  expect(berlin('2031-03-30', '03:30')).toBe('2031-03-30T01:30:00.000Z');
  expect(berlin('2031-10-26', '02:30')).toBe('2031-10-26T00:30:00.000Z');
  expect(startOfDay('2031-05-05', 'America/Lima').toISOString()).toBe('2031-05-05T05:00:00.000Z');
  expect(startOfDay('2031-05-05', 'UTC').toISOString()).toBe('2031-05-05T00:00:00.000Z');
});

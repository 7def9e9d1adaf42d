import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { commissions, journal, pieces } from '../../src/platform/db/tables.ts';
import { putPiece } from '../support/a-piece.ts';
import { takeThrough } from '../support/a-quote.ts';
import { putCommission, putQuote } from '../support/a-record.ts';
import { anEstimateRequest } from '../support/an-estimate-request.ts';
import { aDrawer, aDrawnPiece, planInUse } from '../support/at-the-bench.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';

/** One operation without records: × 1.25, and × exp(0.8416 · 0.3) = 1.2872 eight times in ten. */
function quoted(app: TestApp, commissionId: string, minutes: number): string {
  const labour = [{ operation: 'sawing', role: 'bench', minutes, factor: 1.25 }];
  return putQuote(app, commissionId, anEstimateRequest({ labour, policy: { ratesPerHour: { bench: '24.00' } } }));
}

// One bench of 330 minutes a day; today is Monday 9 June 2031.
test('GET /reports/late-work lists what is past its date or has less than a day to spare', async () => {
  const clock = testClock('2031-05-28T08:00:00Z');
  const app = await startApp({ clock });
  const { desk, bench } = app;
  const late = await putCommission(app, { state: 'resting', title: '=Cup', dueOn: '2031-06-05' });
  app.db
    .update(commissions)
    .set({ waitingFor: 'stone', stateSince: '2031-06-02T08:00:00Z' })
    .where(eq(commissions.id, late.id))
    .run();
  const quoteId = quoted(app, late.id, 100);
  const near = await putCommission(app, { state: 'on_bench', title: 'Brooch', dueOn: '2031-06-10' });
  quoted(app, near.id, 200);
  const far = await putCommission(app, { state: 'agreed', title: 'Ring', dueOn: '2031-06-20' });
  quoted(app, far.id, 50);
  await putCommission(app, { state: 'made', title: 'Made', dueOn: '2031-06-02' });
  await putCommission(app, { state: 'agreed', title: 'Some day', dueOn: null });
  clock.set('2031-06-09T08:00:00Z');
  const letter = { commissionId: late.id, kind: 'new_date', how: 'phone', sentOn: '2031-06-04' };
  const { id: letterId } = (await desk.post('/client-letters', letter).expect(201)).body;

  // Cup: 100 · 1.25 · 1.2872 = 160.9 min left, 4 days late, no day left: −160.9. Brooch: 321.8 more, 482.7 of the 660 of Monday and
  // Tuesday: 177.3 to spare, less than 330. The ring has 10 days of 330 and 563.1 to do.
  const report = (await bench.get('/reports/late-work').expect(200)).body;
  expect(report.today).toBe('2031-06-09');
  expect(report.rows).toMatchObject([
    {
      number: late.number,
      dueOn: '2031-06-05',
      late: true,
      days: 4,
      slackMinutes: -160.9,
      finishesOn: '2031-06-09',
      waitingFor: 'stone',
      waitingSince: '2031-06-02',
      lastWord: { on: '2031-06-04', what: 'new date, phone' },
      entries: { letterIds: [letterId], quoteIds: [quoteId] },
    },
    {
      number: near.number,
      late: false,
      days: -1,
      slackMinutes: 177.3,
      waitingFor: null,
      waitingSince: null,
      lastWord: { on: '2031-05-28', what: 'quote 1' },
    },
  ]);
  expect(report.rows).toHaveLength(2);
  expect((await bench.get('/reports/late-work?from=2031-06-06').expect(200)).body.rows).toHaveLength(1);
  expect((await bench.get('/reports/late-work?to=2031-06-05').expect(200)).body.rows).toHaveLength(1);
  const csv = (await desk.get('/reports/late-work?format=csv').expect(200)).text.split('\r\n');
  expect(csv[0]).toBe(
    'commission,title,state,due_on,late,days_since_due,slack_min,finishes_on,waiting_for,waiting_since,last_word_on,last_word,notes',
  );
  // A title that a spreadsheet would take for a formula.
  expect(csv[1]).toBe(
    `${late.number},'=Cup,resting,2031-06-05,yes,4,-160.9,2031-06-09,stone,2031-06-02,2031-06-04,"new date, phone",`,
  );
});

test('work with time to spare is about to be late where what it waits for comes after its day', async () => {
  const app = await startApp();
  const { owner, bench, desk } = app;
  const { lots } = await aDrawer(app);
  await desk.post('/suppliers', { name: 'Harbour Metals', leadWorkingDays: 8 }).expect(201);
  const piece = await aDrawnPiece(app, { kind: 'own_stock', clientId: undefined, dueOn: '2031-05-14' });
  await planInUse(bench, piece.id);
  await takeThrough(owner, piece.commissionId, ['shaping', 'agreed']);
  expect((await bench.get('/reports/late-work').expect(200)).body.rows).toEqual([]);
  await bench.post('/stock-movements', { kind: 'scrap', lotId: lots['hard'], quantityG: 5, reason: 'swept up' }).expect(201);
  // Eight working days from Monday 5 May are Thursday the 15th, a day after it is due, nine days from now.
  expect((await bench.get('/reports/late-work').expect(200)).body.rows).toMatchObject([
    {
      late: false,
      days: -9,
      finishesOn: '2031-05-15',
      lastWord: null,
      notes: expect.arrayContaining([expect.stringMatching(/^it waits for [\d.]+ g of hard wire/)]),
    },
  ]);
});

test('a commission is late from midnight of the studio on, not of another place', async () => {
  const clock = testClock('2031-05-28T08:00:00Z');
  const app = await startApp({ clock });
  const { version } = (await app.owner.get('/settings').expect(200)).body;
  await app.owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  const cup = await putCommission(app, { state: 'on_bench', dueOn: '2031-06-05' });
  quoted(app, cup.id, 100);
  // 21:59 in UTC is a minute to midnight in Berlin.
  clock.set('2031-06-05T21:59:00Z');
  const row = async () => (await app.bench.get('/reports/late-work').expect(200)).body.rows[0];
  expect(await row()).toMatchObject({ late: false, days: 0 });
  clock.advance({ minutes: 1 });
  expect(await row()).toMatchObject({ late: true, days: 1 });
});

test('GET /reports/not-collected lists what is ready and still here, with the letters since', async () => {
  const clock = testClock('2031-05-01T22:30:00Z');
  const app = await startApp({ clock });
  const { owner, desk, bench, db } = app;
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  const ring = await putCommission(app, { state: 'made', title: 'Ring' });
  const ready = putPiece(app, ring, { state: 'ready', whereabouts: 'safe', title: 'Ring' });
  putPiece(app, ring, { state: 'given', serial: 2 });
  const atWork = await putCommission(app, { state: 'on_bench' });
  putPiece(app, atWork, { state: 'ready' });
  const shelf = await putCommission(app, { state: 'made', kind: 'own_stock', clientId: null });
  putPiece(app, shelf, { state: 'ready' });
  // Checked, ready, hurt and ready again: the last counts. 22:30 in UTC is the 2nd of May in Berlin.
  const line = (at: string, was: string, is: string) =>
    db
      .insert(journal)
      .values({ at, what: 'piece', thingId: ready.id, before: { state: was }, after: { state: is } })
      .run();
  line('2031-04-20T10:00:00.000Z', 'checked', 'ready');
  line('2031-04-21T10:00:00.000Z', 'ready', 'hurt');
  line('2031-05-01T22:30:00.000Z', 'checked', 'ready');
  line('2031-05-03T22:30:00.000Z', 'ready', 'ready');
  clock.set('2031-06-01T22:30:00Z');
  const letter = (sentOn: string, kind = 'collection_notice') =>
    desk.post('/client-letters', { commissionId: ring.id, kind, how: 'post', sentOn }).expect(201);
  await letter('2031-05-01');
  await letter('2031-05-10');
  await letter('2031-05-24', 'balance_reminder');

  const report = (await bench.get('/reports/not-collected').expect(200)).body;
  // From the 2nd of May to the 2nd of June: 31 days; the letter of the 1st was sent before it was ready.
  expect(report).toMatchObject({ today: '2031-06-02' });
  expect(report.rows).toEqual([
    {
      pieceId: ready.id,
      number: ready.number,
      title: 'Ring',
      commission: ring.number,
      readySince: '2031-05-02',
      days: 31,
      letters: 2,
      lastLetterOn: '2031-05-24',
      keptAt: 'safe',
      entries: { letterIds: [expect.any(String), expect.any(String)] },
    },
  ]);
  expect((await bench.get('/reports/not-collected?to=2031-05-01').expect(200)).body.rows).toEqual([]);
  expect((await desk.get('/reports/not-collected?from=2031-05-02&to=2031-05-02&format=csv').expect(200)).text).toBe(
    `piece,title,commission,ready_since,days,letters,last_letter_on,kept_at\r\n${ready.number},Ring,${ring.number},2031-05-02,31,2,2031-05-24,safe\r\n`,
  );
  db.update(pieces).set({ state: 'given' }).where(eq(pieces.id, ready.id)).run();
  expect((await bench.get('/reports/not-collected').expect(200)).body.rows).toEqual([]);
});

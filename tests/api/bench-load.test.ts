import { expect, test } from 'vitest';
import { benchLoad, dayLoads } from '../../src/features/reports/bench-load.ts';
import { weekdayOf } from '../../src/features/studio-days/index.ts';
import { designs, plans } from '../../src/platform/db/tables.ts';
import { putPiece } from '../support/a-piece.ts';
import { putCommission, putQuote, putTime } from '../support/a-record.ts';
import { anEstimateRequest } from '../support/an-estimate-request.ts';
import { startApp, testClock } from '../support/start-app.ts';

/** One bench, Monday to Friday. */
function weekdays(minutes: number): (day: string) => number {
  return (day) => (weekdayOf(day) < 6 ? minutes : 0);
}

// A worked week, by hand: one bench of 330 minutes a day from Monday 2 June 2031. Bangle, brooch, cup and ring are due on the
// 4th, 5th, 9th and 11th: 3, 4, 6 and 8 working days.
test('benchLoad() finds the cup a day late', () => {
  const jobs = [
    { dueOn: '2031-06-04', minutesLeft: 540 },
    { dueOn: '2031-06-05', minutesLeft: 560 },
    { dueOn: '2031-06-09', minutesLeft: 1150 },
    { dueOn: '2031-06-11', minutesLeft: 190 },
  ];
  const loads = benchLoad(jobs, { today: '2031-06-02', minutesOn: weekdays(330) });
  expect(loads.map(({ runningMinutes, capacityMinutes }) => [runningMinutes, capacityMinutes])).toEqual([
    [540, 990],
    [1100, 1320],
    [2250, 1980],
    [2440, 2640],
  ]);
  expect(loads.map(({ loadFraction }) => Number(loadFraction?.toFixed(2)))).toEqual([0.55, 0.83, 1.14, 0.92]);
  expect(loads.map(({ finishesOn, lateDays }) => [finishesOn, lateDays])).toEqual([
    ['2031-06-03', 0],
    ['2031-06-05', 0],
    ['2031-06-10', 1],
    ['2031-06-11', 0],
  ]);
  // Of 3, 4, 6 and 8 days of 330 minutes.
  expect(loads.map(({ slackMinutes }) => slackMinutes)).toEqual([450, 220, -270, 200]);
});

test('dayLoads() fills each day with the earliest due, and what waits for metal is taken up later', () => {
  const jobs = [
    { dueOn: '2031-06-06', minutesLeft: 500, readyOn: '2031-06-09' },
    { dueOn: '2031-06-09', minutesLeft: 400 },
  ];
  const days = dayLoads(jobs, { today: '2031-06-05', minutesOn: weekdays(330), count: 7 });
  expect(days.map(({ on, capacityMinutes, takenMinutes }) => [on, capacityMinutes, takenMinutes])).toEqual([
    ['2031-06-05', 330, 330],
    ['2031-06-06', 330, 70],
    ['2031-06-07', 0, 0],
    ['2031-06-08', 0, 0],
    ['2031-06-09', 330, 330],
    ['2031-06-10', 330, 170],
    ['2031-06-11', 330, 0],
  ]);
  expect(days[1]!.worked).toEqual([{ place: 1, minutes: 70 }]);
  // What is taken comes to what is left, and the last day worked is the one that benchLoad() names.
  expect(benchLoad(jobs, { today: '2031-06-05', minutesOn: weekdays(330) }).map(({ finishesOn }) => finishesOn)).toEqual([
    '2031-06-10',
    '2031-06-06',
  ]);
});

test('benchLoad() over a weekend, past its date, without a date and without a bench', () => {
  expect(['2031-06-06', '2031-06-07', '2031-06-08', '2031-06-09'].map(weekdayOf)).toEqual([5, 6, 7, 1]);
  const [friday] = benchLoad([{ dueOn: '2031-06-06', minutesLeft: 331 }], { today: '2031-06-06', minutesOn: weekdays(330) });
  expect(friday).toMatchObject({ workingDays: 1, finishesOn: '2031-06-09', lateDays: 3 });
  const saturday = benchLoad(
    [
      { dueOn: '2031-06-05', minutesLeft: 0 },
      { dueOn: null, minutesLeft: 10 },
    ],
    { today: '2031-06-07', minutesOn: weekdays(330) },
  );
  expect(saturday[0]).toMatchObject({ workingDays: 0, loadFraction: null, finishesOn: '2031-06-09', lateDays: 4 });
  expect(saturday[1]).toMatchObject({ workingDays: null, loadFraction: null, finishesOn: '2031-06-09', lateDays: null });
  expect(benchLoad([{ dueOn: '2031-06-06', minutesLeft: 1 }], { today: '2031-06-05', minutesOn: () => 0 })).toMatchObject([
    { loadFraction: null, finishesOn: null, lateDays: null },
  ]);
});

const labour = (minutes: number) => [
  { operation: 'sawing', role: 'bench', minutes, factor: 1.25 },
  { operation: 'letters', role: 'desk', minutes: 30 },
];

test('GET /reports/bench-load puts the earliest due first, takes off what is done, and says what it knows not', async () => {
  const app = await startApp({ clock: testClock('2031-06-02T08:00:00Z') });
  const { owner, desk, student } = app;
  const policy = { ratesPerHour: { bench: '24.00', desk: '24.00' } };
  const cup = await putCommission(app, { state: 'on_bench', title: 'Cup', dueOn: '2031-06-09' });
  const quoteId = putQuote(app, cup.id, anEstimateRequest({ labour: labour(800), policy }));
  const bangle = await putCommission(app, { state: 'agreed', title: 'Bangle', dueOn: '2031-06-05' });
  putQuote(app, bangle.id, anEstimateRequest({ labour: labour(320), policy }));
  const bare = await putCommission(app, { state: 'resting', title: 'Brooch', dueOn: '2031-06-20' });
  await putCommission(app, { state: 'shaping', title: 'Not agreed', dueOn: '2031-06-06' });
  const piece = putPiece(app, cup);
  const scrapped = putPiece(app, cup, { serial: 2, state: 'scrapped' });
  const done = putTime(app, { pieceId: piece.id, minutes: 90 });
  putTime(app, { pieceId: piece.id, minutes: 500, state: 'in_doubt' });
  putTime(app, { pieceId: scrapped.id, minutes: 60 });

  const report = (await desk.get('/reports/bench-load').expect(200)).body;
  expect(report).toMatchObject({
    report: 'bench-load',
    today: '2031-06-02',
    minutesPerDay: 330,
    benches: 1,
    from: null,
    to: null,
  });
  expect(report.rows.map((row: { title: string }) => row.title)).toEqual(['Bangle', 'Cup', 'Brooch']);
  // Eight in ten of one operation without records: × exp(0.8416 × 0.3) = 1.287. Bangle 320 × 1.25 = 400, 514.9 of 4 × 330; cup
  // 800 × 1.25 = 1000, 1287.2 − 90 = 1197.2, running 1712.1 of 6 × 330.
  expect(report.rows[0]).toMatchObject({
    plannedMinutes: 400,
    minutesLeft: 514.9,
    loadFraction: 0.3901,
    finishesOn: '2031-06-03',
  });
  expect(report.rows[1]).toMatchObject({
    number: cup.number,
    basis: 'quote',
    plannedMinutes: 1000,
    eightInTenMinutes: 1287.2,
    doneMinutes: 90,
    minutesLeft: 1197.2,
    runningMinutes: 1712.1,
    workingDays: 6,
    capacityMinutes: 1980,
    loadFraction: 0.8647,
    finishesOn: '2031-06-09',
    slackMinutes: 267.9,
    lateDays: 0,
    notes: [],
    entries: { quoteId, benchTimeIds: [done] },
  });
  expect(report.rows[2]).toMatchObject({
    commissionId: bare.id,
    basis: 'none',
    minutesLeft: 0,
    notes: ['no quote, and no design with a plan: the minutes are not known'],
  });
  const some = (await desk.get('/reports/bench-load?from=2031-06-06&to=2031-06-09').expect(200)).body;
  expect(some.rows).toHaveLength(1);
  expect(some.rows[0].runningMinutes).toBe(1712.1);
  await student.get('/reports/bench-load').expect(403);

  await owner.post('/people', { name: 'Heron', signInName: 'heron', roles: ['bench'], benchMinutesPerDay: 200 }).expect(201);
  await owner.post('/people', { name: 'Lantern', signInName: 'lantern', roles: ['bench'], benchMinutesPerDay: 300 }).expect(201);
  const two = (await owner.get('/reports/bench-load').expect(200)).body;
  expect(two).toMatchObject({ minutesPerDay: 500, benches: 2 });
  const csv = await owner.get('/reports/bench-load?format=csv').expect(200).expect('content-type', 'text/csv; charset=utf-8');
  expect(csv.text.split('\r\n').slice(0, 3)).toEqual([
    'commission,title,state,due_on,planned_min,eight_in_ten_min,done_min,left_min,running_min,working_days,capacity_min,load_fraction,finishes_on,slack_min,late_days,notes',
    `${bangle.number},Bangle,agreed,2031-06-05,400,514.9,0,514.9,514.9,4,2000,0.2575,2031-06-03,1485.1,0,`,
    `${cup.number},Cup,on_bench,2031-06-09,1000,1287.2,90,1197.2,1712.1,6,3000,0.5707,2031-06-05,1287.9,0,`,
  ]);
});

// The usual minutes: close a ring 4, a heat 8, pickle 3, clean up 5, file 45, polish 30, pack 15: 110; a new studio adds a quarter:
// 137.5. Eight in ten by hand: σ = 0.3413 of each, √(593.98 + 0.3 · (2201.9 − 593.98)) = 32.81, × 0.8416 = 27.6 more.
test('GET /reports/bench-load goes by design and plan where nothing was quoted', async () => {
  const app = await startApp();
  const { db, actors, owner } = app;
  const commission = await putCommission(app, { state: 'on_bench', kind: 'small_run', quantity: 2 });
  const piece = putPiece(app, commission);
  const made = { pieceId: piece.id, number: 1, madeBy: actors.owner.personId, createdAt: '2031-05-05T08:00:00Z' };
  const link = { id: 'link', metal: 'sterling-925', form: { kind: 'wire_ring', insideDiameterMm: 4, diameterMm: 1 } } as const;
  const seam = { id: 'seam', kind: 'jump_ring', closes: 'link', diameterMm: 1, gapMm: 0.05 } as const;
  db.insert(designs)
    .values({ ...made, id: 'design', body: { parts: [link], joints: [seam] } })
    .run();
  db.insert(plans)
    .values({
      ...made,
      id: 'plan',
      state: 'draft',
      designId: 'design',
      origin: 'by_hand',
      body: { heats: [{ joints: ['seam'], solder: 'hard' }] },
      bench: { torch: 'medium', support: 'brick' },
      solders: [],
    })
    .run();
  const [row] = (await owner.get('/reports/bench-load').expect(200)).body.rows;
  expect(row).toMatchObject({
    basis: 'plan',
    plannedMinutes: 137.5,
    minutesLeft: 165.1,
    notes: ['no quote: minutes from design and plan at the usual times × 1.25', '1 of 2 pieces are noted'],
  });
});

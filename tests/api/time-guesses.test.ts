import { expect, test } from 'vitest';
import { putPiece } from '../support/a-piece.ts';
import { putCommission, putQuote, putTime } from '../support/a-record.ts';
import { anEstimateRequest } from '../support/an-estimate-request.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';

const PATH = '/reports/time-guesses';
const FILING = 'filing and emery';
const policy = { ratesPerHour: { bench: '24.00', desk: '24.00' } };

/** A finished commission with one operation, guessed before any factor, and taken. */
async function finished(app: TestApp, guessed: number, taken: number, operation = FILING): Promise<void> {
  const commission = await putCommission(app, { state: 'handed_over' });
  const labour = [{ operation, role: 'bench', minutes: guessed, factor: 1.25 }];
  putQuote(app, commission.id, anEstimateRequest({ labour, policy }));
  putTime(app, { pieceId: putPiece(app, commission, { state: 'given' }).id, minutes: taken, operation });
}

// The studio's worked example of seven filings: ratios 1.2889, 1.1, 1.3667, 1.1538, 0.9778, 1.55, 1.28; the median is 1.28.
const FILINGS: [number, number][] = [
  [45, 58],
  [60, 66],
  [30, 41],
  [130, 150],
  [90, 88],
  [40, 62],
  [75, 96],
];

test('GET /reports/time-guesses shows each operation’s usual ratio beside the factor that prices use', async () => {
  const app = await startApp();
  const { owner } = app;
  for (const [guessed, taken] of FILINGS) await finished(app, guessed, taken);
  await finished(app, 20, 50, 'polishing');
  const report = (await owner.get(PATH).expect(200)).body;
  // 1.25 · exp(0.8416 · 0.30) = 1.609: no filing took more. Polishing took 2.5 times, farther from 1.25 than 1.28 is: it comes first.
  expect(report.rows).toMatchObject([
    { operation: 'polishing', n: 1, usualRatio: 2.5, factorInUse: 1.25, accepted: false, eightInTen: 1.609, stayedUnder: 0 },
    { operation: FILING, n: 7, usualRatio: 1.28, factorInUse: 1.25, accepted: false, eightInTen: 1.609, stayedUnder: 7 },
  ]);
  expect(report.rows[1].records[0]).toMatchObject({ day: '2031-05-05', estimateMinutes: 45, actualMinutes: 58, ratio: 1.2889 });

  const { items } = (await owner.get('/learned-factors/offers').expect(200)).body;
  const { factor } = items.find(({ operation }: { operation: string }) => operation === FILING);
  await owner.post('/learned-factors', { operation: FILING, factor }).expect(201);
  // Factor 1.267413 and shrunk spread 0.226505: eight in ten 1.267413 · exp(0.190627) = 1.5336; 62 for 40 is 1.55.
  const after = (await owner.get(PATH).expect(200)).body.rows[1];
  expect(after).toMatchObject({ factorInUse: 1.2674, accepted: true, eightInTen: 1.5336, stayedUnder: 6 });
  const csv = (await owner.get(`${PATH}?format=csv`).expect(200)).text;
  expect(csv).toBe(
    `operation,n,usual_ratio,factor_in_use,eight_in_ten_ratio,stayed_under\r\npolishing,1,2.5,1.25,1.609,0\r\n${FILING},7,1.28,1.2674,1.5336,6\r\n`,
  );
});

test('GET /reports/time-guesses counts by the day of the studio, and is the owner’s', async () => {
  // 22:30 in UTC is half past midnight of the 6th in Berlin.
  const app = await startApp({ clock: testClock('2031-05-05T22:30:00Z') });
  const { owner, bench, desk } = app;
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  await finished(app, 40, 60);
  const rows = async (query: string) => (await owner.get(`${PATH}?${query}`).expect(200)).body.rows as object[];
  expect(await rows('to=2031-05-05')).toEqual([]);
  expect(await rows('from=2031-05-06&to=2031-05-06')).toMatchObject([{ n: 1, usualRatio: 1.5 }]);
  for (const person of [bench, desk]) await person.get(PATH).expect(403);
});

test('what was corrected after its month was closed counts as corrected, on the day of the work', async () => {
  const clock = testClock('2031-04-10T08:00:00Z');
  const app = await startApp({ clock });
  const { owner } = app;
  await finished(app, 40, 60);
  clock.set('2031-05-12T08:00:00Z');
  await owner.post('/month-locks', { month: '2031-04' }).expect(201);
  const [time] = (await owner.get('/bench-times').expect(200)).body.items;
  expect(time.state).toBe('locked');
  await owner.post(`/bench-times/${time.id}/corrections`, { minutes: -10, reason: 'the phone rang' }).expect(201);
  const { rows } = (await owner.get(`${PATH}?from=2031-04-01&to=2031-04-30`).expect(200)).body;
  // 50 minutes for 40.
  expect(rows).toMatchObject([{ n: 1, usualRatio: 1.25, records: [{ day: '2031-04-10', actualMinutes: 50 }] }]);
  expect((await owner.get(`${PATH}?from=2031-05-01`).expect(200)).body.rows).toEqual([]);
});

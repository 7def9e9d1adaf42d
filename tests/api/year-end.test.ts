import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import { commissions, journal, quotes } from '../../src/platform/db/tables.ts';
import { putCommission, putQuote } from '../support/a-record.ts';
import { anEstimateRequest } from '../support/an-estimate-request.ts';
import { startApp, testClock, type TestApp } from '../support/start-app.ts';

interface Row {
  section: string;
  [member: string]: unknown;
}

const rowsOf = async ({ owner }: TestApp, query: string, section: string) =>
  ((await owner.get(`/reports/year-end?${query}`).expect(200)).body.rows as Row[]).filter((row) => row.section === section);

/** As the life cycle writes it. */
function handOver({ db, clock }: TestApp, commissionId: string): void {
  db.update(commissions).set({ state: 'handed_over' }).where(eq(commissions.id, commissionId)).run();
  const after = { state: 'handed_over' };
  db.insert(journal).values({ at: clock.now().toISOString(), what: 'commission', thingId: commissionId, after }).run();
}

test('a deposit was held at the end of a year, whatever was handed over after it', async () => {
  const clock = testClock('2031-12-20T10:00:00Z');
  const app = await startApp({ clock });
  const { owner, desk } = app;
  const { version } = (await owner.get('/settings').expect(200)).body;
  await owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  const cup = await putCommission(app, { state: 'on_bench', dueOn: '2032-02-01' });
  putQuote(app, cup.id, anEstimateRequest());
  const amount = { amountMinor: 1000, currency: 'EUR' };
  await desk.post('/payments', { commissionId: cup.id, kind: 'deposit', how: 'cash', amount }).expect(201);
  // 23:30 in UTC on New Year's Eve is the first of January in Berlin.
  clock.set('2031-12-31T23:30:00Z');
  handOver(app, cup.id);
  clock.set('2032-03-01T10:00:00Z');
  expect(await rowsOf(app, 'from=2031-01-01&to=2031-12-31', 'deposits')).toMatchObject([{ number: cup.number, value: amount }]);
  expect(await rowsOf(app, 'to=2031-12-19', 'deposits')).toEqual([]);
  expect(await rowsOf(app, 'to=2032-01-01', 'deposits')).toEqual([]);
  // Its tax is of the year in which it was handed over.
  expect(await rowsOf(app, 'from=2031-01-01&to=2031-12-31', 'tax')).toEqual([]);
  expect(await rowsOf(app, 'from=2032-01-01&to=2032-12-31', 'tax')).toMatchObject([{ month: '2032-01' }]);
});

test('bills in two currencies are two rows, and only those in the studio’s are added up', async () => {
  const app = await startApp();
  const [first, second] = [await putCommission(app, { state: 'made' }), await putCommission(app, { state: 'made' })];
  for (const [{ id }, currency] of [
    [first, 'EUR'],
    [second, 'USD'],
  ] as const) {
    const quoteId = putQuote(app, id, anEstimateRequest());
    app.db.update(quotes).set({ currency, netMinor: 10_000, grossMinor: 12_000 }).where(eq(quotes.id, quoteId)).run();
    handOver(app, id);
  }
  const { totals, rows, about } = (await app.owner.get('/reports/year-end').expect(200)).body;
  expect((rows as Row[]).filter(({ section }) => section === 'tax')).toMatchObject([
    { what: 'of one bill', cost: { amountMinor: 10_000, currency: 'EUR' }, value: { amountMinor: 2000, currency: 'EUR' } },
    { what: 'of one bill', cost: { amountMinor: 10_000, currency: 'USD' }, value: { amountMinor: 2000, currency: 'USD' } },
  ]);
  expect(totals.tax).toEqual({ amountMinor: 2000, currency: 'EUR' });
  expect(about.at(-1)).toContain('Totals are in EUR alone');
  expect((await app.owner.get('/reports/year-end?format=csv').expect(200)).text).toContain('"of one bill, in USD"');
});

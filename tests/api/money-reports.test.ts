import { readFileSync } from 'node:fs';
import { eq } from 'drizzle-orm';
import { expect, test } from 'vitest';
import type { EstimateRequest } from '../../shared/costing/estimate-request.ts';
import { quotes } from '../../src/platform/db/tables.ts';
import { aCommission } from '../support/a-commission.ts';
import { putPiece } from '../support/a-piece.ts';
import { anAcceptedQuote, aPricedPendant, aSentQuote, eur, takeThrough, typePrices } from '../support/a-quote.ts';
import { putCommission, putQuote, putTime } from '../support/a-record.ts';
import { startApp, type TestApp } from '../support/start-app.ts';

// The worked pendant: making cost 197.80 (base 188.38, contingency 9.42), net 370.30, of it 40.63 passed through at 32.50. Planned:
// labour, overhead and consumables 102.00 + 68.00 + 10.63; metal less credit 7.54; solder 0.10; flux, pickle and gas 0.11.
const { cases } = JSON.parse(readFileSync(new URL('../reference/estimate-cases.json', import.meta.url), 'utf8')) as {
  cases: { request: EstimateRequest }[];
};
const pendant = cases[0]!.request;

/** A pendant that is handed over: so many minutes at 24.00 + 16.00 + 2.50 an hour, 5 g of sterling at 1.42. */
async function aMade(app: TestApp, { minutes = 300, kind = 'one_off', quoted = pendant } = {}) {
  const settings = await app.owner.get('/settings').expect(200);
  await app.owner
    .patch('/settings', { metalPrices: { 'sterling-925': { amount: '1.42', per: 'g' } } }, settings.body.version)
    .expect(200);
  const commission = await putCommission(app, { state: 'handed_over', kind });
  const quoteId = putQuote(app, commission.id, quoted);
  const piece = putPiece(app, commission, { state: 'given', metalIssuedTenthMg: 60_000, metalReturnedTenthMg: 10_000 });
  const timeId = putTime(app, { pieceId: piece.id, minutes });
  return { commission, quoteId, piece, timeId };
}

const report = async ({ owner }: TestApp, name: string) => (await owner.get(`/reports/${name}`).expect(200)).body;

test('earned-per-hour divides what is left of the price by the hours at the bench, by kind', async () => {
  const app = await startApp();
  const one = await aMade(app, { minutes: 300 });
  await aMade(app, { minutes: 100 });
  await aMade(app, { minutes: 120, kind: 'small_run' });
  const open = await putCommission(app, { state: 'on_bench' });
  putQuote(app, open.id, pendant);
  const bare = await putCommission(app, { state: 'made' });
  putQuote(app, bare.id, pendant);
  putPiece(app, bare, { state: 'ready', metalIssuedTenthMg: null });
  const found = await report(app, 'earned-per-hour');
  // 2 · (370.30 − 7.10 − 32.50) = 661.40 over 6.6667 h is 99.21; 330.70 over 2 h is 165.35.
  expect(found.rows).toMatchObject([
    { kind: 'small_run', jobs: 1, benchHours: 2, earnedPerHour: eur(16_535) },
    {
      kind: 'one_off',
      jobs: 2,
      benchHours: 6.67,
      net: eur(74_060),
      boughtIn: eur(2 * (710 + 3250)),
      netLessBoughtIn: eur(66_140),
      earnedPerHour: eur(9921),
    },
  ]);
  expect(found.rows[1].entries).toMatchObject({ quoteIds: [one.quoteId, expect.any(String)] });
  expect(found.about.at(-1)).toBe(`Not known, and left out: ${bare.number}`);
});

test('lost-money goes from the planned profit to the true one by causes that add up', async () => {
  const app = await startApp();
  const discounted = { ...pendant, policy: { ...pendant.policy, discountFraction: 0.1 } };
  const { commission, piece, timeId } = await aMade(app, { minutes: 500, quoted: discounted });
  const fine = await aMade(app, { minutes: 200 });
  const incident = (await app.bench.post('/incidents', { pieceId: piece.id, kind: 'reflow', minutesLost: 120 }).expect(201)).body;
  const { rows } = await report(app, 'lost-money');
  expect(rows.map(({ number }: { number: string }) => number)).toEqual([commission.number, fine.commission.number]);
  const [lost] = rows;
  const amounts = Object.fromEntries(
    lost.causes.map(({ cause, amount }: { cause: string; amount: { amountMinor: number } }) => [cause, amount.amountMinor]),
  );
  // Of 500 min at 42.50 an hour, 200.00 + 133.33 + 20.83, the incident took 120, 85.00; planned were 180.63.
  expect(amounts).toEqual({
    discount: -3703,
    minutes: 18_063 - (35_416 - 8500),
    rework: -8500,
    metal: 754 - 710,
    solder: 10,
    bought_in: 0,
    not_needed: 942 + 11,
  });
  expect(lost).toMatchObject({
    lost: true,
    plannedProfit: eur(14_000),
    plannedMarginFraction: 0.3781,
    trueProfit: eur(33_327 - 35_416 - 710 - 3250),
    largestCause: 'minutes',
    entries: { benchTimeIds: [timeId], incidentIds: [incident.id] },
  });
  for (const row of rows) {
    const sum = row.causes.reduce(
      (total: number, { amount }: { amount: { amountMinor: number } }) => total + amount.amountMinor,
      0,
    );
    expect(row.plannedProfit.amountMinor + sum).toBe(row.trueProfit.amountMinor);
  }
  expect(rows[1]).toMatchObject({ lost: false, largestCause: null });
  const csv = await app.owner.get('/reports/lost-money?format=csv').expect(200).expect('content-type', 'text/csv; charset=utf-8');
  const [head, first] = csv.text.split('\r\n');
  expect(head).toBe(
    'commission,title,day,planned_profit_EUR,planned_margin_fraction,discount_EUR,minutes_EUR,rework_EUR,metal_EUR,solder_EUR,bought_in_EUR,not_needed_EUR,true_profit_EUR,true_margin_fraction,largest_cause',
  );
  expect(first).toContain(',140.00,0.3781,-37.03,-88.53,-85.00,0.44,0.10,0.00,9.53,-60.49,');
});

test('quote-outcomes counts by month what became of the versions that were sent', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  await aSentQuote(app, commissionId, { overrides: { policy: { discountFraction: 0.1 } } });
  await aSentQuote(app, commissionId);
  app.clock.advance({ days: 3 });
  const third = await aSentQuote(app, commissionId, { overrides: { policy: { discountFraction: 0.05 } } });
  app.clock.advance({ days: 2 });
  await app.desk.move(`/quotes/${third.id}`, { from: 'sent', to: 'accepted' }, app.clock.now()).expect(200);
  await typePrices(app, { finePrice: { perG: '1.05', typedAt: app.clock.now().toISOString(), source: 'the refiner’s page' } });
  const fourth = await aSentQuote(app, commissionId, { from: third.id });
  app.clock.set('2031-06-02T08:00:00Z');
  await app.desk.move(`/quotes/${fourth.id}`, { from: 'sent', to: 'declined', reason: 'too dear' }, app.clock.now()).expect(200);
  const { rows } = (await app.desk.get('/reports/quote-outcomes').expect(200)).body;
  expect(rows).toMatchObject([
    {
      month: '2031-05',
      sent: 4,
      accepted: 1,
      declined: 1,
      lapsed: 0,
      replaced: 2,
      open: 0,
      acceptedFraction: 0.5,
      // 2 days and 23.
      medianDays: 12.5,
      medianDiscountFraction: 0.05,
    },
  ]);
  app.db.update(quotes).set({ state: 'lapsed', answeredAt: null }).where(eq(quotes.id, fourth.id)).run();
  const again = (await app.desk.get('/reports/quote-outcomes').expect(200)).body.rows[0];
  expect(again).toMatchObject({ declined: 0, lapsed: 1, acceptedFraction: 0.5, medianDays: 2 });
  expect((await app.desk.get('/reports/quote-outcomes?from=2031-06-01').expect(200)).body.rows).toEqual([]);
  const csv = await app.desk.get('/reports/quote-outcomes?format=csv').expect(200);
  expect(csv.text).toBe(
    'month,sent,accepted,declined,lapsed,replaced_or_withdrawn,open,accepted_fraction,median_days,median_discount_fraction\r\n2031-05,4,1,0,1,2,0,0.5,2,0.05\r\n',
  );
});

test('money-owed lists who owes, whom we owe, and deposits on work not begun', async () => {
  const app = await startApp();
  const { commissionId } = await aPricedPendant(app);
  const quote = await anAcceptedQuote(app, commissionId);
  const pay = (id: string, amountMinor: number, kind = 'deposit') =>
    app.owner.post('/payments', { commissionId: id, kind, amount: eur(amountMinor), how: 'cash' }).expect(201);
  await pay(commissionId, 5000);
  const other = await aCommission(app.desk);
  putQuote(app, other.id, pendant);
  await pay(other.id, 20_000);
  await takeThrough(app.owner, other.id, ['shaping']);
  await takeThrough(app.owner, other.id, ['called_off'], { reason: 'changed their mind' });
  app.clock.advance({ days: 9 });
  const owedMinor = quote.gross.amountMinor - 5000;
  const found = (await app.desk.get('/reports/money-owed').expect(200)).body;
  expect(found).toMatchObject({ owedToUs: eur(owedMinor), weOwe: eur(20_000), depositsNotBegun: eur(5000) });
  expect(found.rows).toMatchObject([
    { commissionId, client: 'Millrace', ageDays: 9, received: eur(5000), balance: eur(owedMinor), depositNotBegun: eur(5000) },
    { commissionId: other.id, state: 'called_off', balance: eur(-20_000), depositNotBegun: null },
  ]);
  expect(found.rows[0].entries).toEqual({ quoteId: quote.id, paymentIds: [expect.any(String)] });
  const csv = await app.desk.get('/reports/money-owed?format=csv').expect(200);
  expect(csv.text.split('\r\n')[0]).toBe(
    'commission,title,client,state,day,age_days,currency,gross_in_currency,received_in_currency,balance_in_currency,deposit_not_begun_in_currency',
  );
});

test('costs are the owner’s, what clients owe and answer is the desk’s', async () => {
  const { desk, bench, student, stranger } = await startApp();
  for (const name of ['earned-per-hour', 'lost-money']) await desk.get(`/reports/${name}`).expect(403);
  for (const name of ['quote-outcomes', 'money-owed']) {
    await bench.get(`/reports/${name}`).expect(403);
    await student.get(`/reports/${name}`).expect(403);
    await stranger.get(`/reports/${name}`).expect(401);
    await desk.get(`/reports/${name}`).expect(200);
  }
});

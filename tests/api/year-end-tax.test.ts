import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { EstimateRequest } from '../../shared/costing/estimate-request.ts';
import { putPiece } from '../support/a-piece.ts';
import { eur } from '../support/a-quote.ts';
import { putCommission, putQuote } from '../support/a-record.ts';
import { startApp, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

// The worked pendant: net 370.30, with a fifth of tax 444.36.
const { cases } = JSON.parse(readFileSync(new URL('../reference/estimate-cases.json', import.meta.url), 'utf8')) as {
  cases: { request: EstimateRequest }[];
};
const pendant = cases[0]!.request;
const at = (rateFraction: number): EstimateRequest => ({
  ...pendant,
  policy: { ...pendant.policy, tax: { ...pendant.policy.tax, rateFraction } },
});

/** Sold by the accepted version at a rate, and handed over now. */
async function handOver(app: TestApp, rateFraction: number): Promise<void> {
  const commission = await putCommission(app, { state: 'made', dueOn: undefined });
  putQuote(app, commission.id, at(rateFraction));
  putPiece(app, commission, { state: 'ready', weighedTenthMg: 55_000 });
  const beyond = { override: true, reason: 'a regular' };
  const path = `/commissions/${commission.id}`;
  await app.owner.move(path, { from: 'made', to: 'handed_over', ...beyond }, app.clock.now()).expect(200);
}

test('tax is told by rate and by the month of the studio’s own calendar in which the work was handed over', async () => {
  const app = await startApp();
  const { owner, clock } = app;
  const { version } = (await owner.get('/settings')).body;
  await owner.patch('/settings', { timeZone: 'Europe/Berlin' }, version).expect(200);
  clock.set('2031-05-31T12:00:00Z');
  await handOver(app, 0.2);
  await handOver(app, 0.2);
  // Half an hour into June on the wall.
  clock.set('2031-05-31T22:30:00Z');
  await handOver(app, 0.2);
  await handOver(app, 0.1);
  clock.set('2032-02-01T12:00:00Z');
  await handOver(app, 0.2);
  const { rows, totals } = (await owner.get('/reports/year-end?from=2031-01-01&to=2031-12-31').expect(200)).body;
  const tax = rows.filter(({ section }: { section: string }) => section === 'tax');
  // By line, 18.515 a tenth of each rounded; of the whole, 37.03 and 74.06.
  expect(tax).toEqual([
    expect.objectContaining({ month: '2031-05', rateFraction: 0.2, cost: eur(74_060), value: eur(14_812), what: 'of 2 bills' }),
    expect.objectContaining({ month: '2031-06', rateFraction: 0.1, cost: eur(37_030), value: eur(3703) }),
    expect.objectContaining({ month: '2031-06', rateFraction: 0.2, cost: eur(37_030), value: eur(7406), what: 'of one bill' }),
  ]);
  expect(totals.tax).toEqual(eur(14_812 + 3703 + 7406));
});

/** What the year-end says of the stock of one product, delivered twice, when issues are costed one way. */
async function stockAtYearEnd(method: 'oldest_first' | 'average') {
  const app = await startApp();
  const { owner, bench, clock } = app;
  const { version } = (await owner.get('/settings')).body;
  await owner.patch('/settings', { stockCost: method }, version).expect(200);
  const product = await addProduct(owner, { price: { amount: '2.00', per: 'g' } });
  const lot = await receiveLot(owner, product.id, { quantityG: 20, unitCost: { amount: '1.70', per: 'g' } });
  await receiveLot(owner, product.id, { quantityG: 30, unitCost: { amount: '2.40', per: 'g' } });
  await bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 10, reason: 'rings' }).expect(201);
  clock.set('2032-01-10T09:00:00Z');
  // What is used in the new year was there in the old.
  await bench.post('/stock-movements', { kind: 'use', lotId: lot.id, quantityG: 5, reason: 'rings' }).expect(201);
  const { rows, totals } = (await owner.get('/reports/year-end?from=2031-01-01&to=2031-12-31').expect(200)).body;
  const stock = rows.filter(({ section }: { section: string }) => section === 'stock');
  return [stock.map(({ grams, counted }: { grams: number; counted: object }) => [grams, counted]), totals.stock];
}

// IAS 2, paragraph 9: the lower of cost and net realisable value, delivery by delivery.
test('stock counts at the lower of cost and what it costs now, as it was that evening, by either method', async () => {
  // 10 g at 1.70 stay at cost; 30 g at 2.40 fall to 2.00.
  expect(await stockAtYearEnd('oldest_first')).toEqual([
    [
      [10, eur(1700)],
      [30, eur(6000)],
    ],
    eur(7700),
  ]);
  // 50 g for 106.00: 2.12 a gram, and 2.00 now.
  expect(await stockAtYearEnd('average')).toEqual([[[40, eur(8000)]], eur(8000)]);
});

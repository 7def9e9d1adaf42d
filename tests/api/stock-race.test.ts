import { expect, test } from 'vitest';
import { startApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

test('fifty who take from one lot at once get what it holds, to the tenth of a milligram, and the others nothing', async () => {
  const app = await startApp();
  const { owner, bench } = app;
  const product = await addProduct(owner);
  const lot = await receiveLot(owner, product.id, { quantityG: 5 });
  const body = { kind: 'use', lotId: lot.id, quantityG: 0.2, reason: 'all at once' };
  const answers = await Promise.all(Array.from({ length: 50 }, (_, i) => (i % 2 ? owner : bench).post('/stock-movements', body)));
  const statuses = answers.map(({ status }) => status);
  expect(statuses.filter((status) => status === 201)).toHaveLength(25);
  expect(statuses.filter((status) => status === 409)).toHaveLength(25);
  expect((await bench.get(`/solder-lots/${lot.id}`).expect(200)).body.onHandG).toBe(0);
  const ledger = await bench.get(`/stock-movements?lotId=${lot.id}&limit=200`).expect(200);
  const sumTenthMg = (ledger.body.items as { onHandG: number }[]).reduce(
    (sum, { onHandG }) => sum + Math.round(onHandG * 10_000),
    0,
  );
  expect([ledger.body.items.length, sumTenthMg]).toEqual([26, 0]);
  expect((await owner.post('/stock/audit', {}).expect(200)).body).toMatchObject({ ok: true, findings: [] });
});

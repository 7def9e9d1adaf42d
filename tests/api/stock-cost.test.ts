import { expect, test } from 'vitest';
import { startApp, type TestApp } from '../support/start-app.ts';
import { addProduct, receiveLot } from '../support/stock.ts';

// L1 20 g at 1.70, use 12.5; L2 30 g at 1.95, use 25; L3 25 g at 2.10, use 18.4: the worked table of the two methods.
const STEPS = [
  { quantityG: 20, amount: '1.70', useG: 12.5 },
  { quantityG: 30, amount: '1.95', useG: 25 },
  { quantityG: 25, amount: '2.10', useG: 18.4 },
];

async function issues({ owner, bench, desk }: TestApp) {
  const product = await addProduct(owner);
  const lots: string[] = [];
  for (const { quantityG, amount, useG } of STEPS) {
    const unitCost = { amount, per: 'g' };
    lots.push((await receiveLot(owner, product.id, { quantityG, unitCost })).id);
    // The bench takes from whichever lot has enough: money goes by its own rule.
    let left = useG;
    for (const lotId of lots) {
      const { onHandG } = (await bench.get(`/solder-lots/${lotId}`)).body;
      const taken = Math.min(left, onHandG);
      if (taken <= 0) continue;
      await bench
        .post('/stock-movements', { kind: 'use', lotId, quantityG: Number(taken.toFixed(4)), reason: 'rings' })
        .expect(201);
      left = Number((left - taken).toFixed(4));
    }
  }
  const movements = (await desk.get(`/stock-movements?productId=${product.id}`)).body.items.toReversed() as {
    kind: string;
    cost: string;
  }[];
  expect((await bench.get(`/stock-movements?productId=${product.id}`)).body.items[0].cost).toBeUndefined();
  const stock = (await desk.get('/stock')).body.items[0];
  return {
    uses: movements.filter(({ kind }) => kind === 'use').map(({ cost }) => cost),
    value: stock.value.amountMinor,
    onHandG: stock.onHandG,
  };
}

test('solder is costed oldest first, to six places; the report rounds', async () => {
  const found = await issues(await startApp());
  // 12.5; 7.5 and 17.5 (46.875 together); 12.5 and 5.9 (36.765 together).
  expect(found).toEqual({ uses: ['21.250000', '12.750000', '34.125000', '24.375000', '12.390000'], value: 4011, onHandG: 19.1 });
});

test('or at the running average, chosen once and before the first use', async () => {
  const app = await startApp();
  const { version } = (await app.owner.get('/settings')).body;
  await app.owner.patch('/settings', { stockCost: 'average' }, version).expect(200);
  const found = await issues(app);
  // 12.5 at 1.70; 25 at 1.90; 18.4 at 2.033333: 37.413333.
  expect(found).toMatchObject({ value: 3884, onHandG: 19.1 });
  const [first, ...rest] = found.uses.map(Number);
  expect(first).toBe(21.25);
  expect(rest.slice(0, 2).reduce((a, b) => a + b)).toBeCloseTo(47.5, 6);
  expect(rest.slice(2).reduce((a, b) => a + b)).toBeCloseTo(37.413333, 5);
  const refused = (await app.owner.patch('/settings', { stockCost: 'oldest_first' }, version + 1).expect(409)).body;
  expect(refused.detail).toContain('chosen once');
});

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { addToPool, takeAtAverage, takeOldestFirst, type CostLayer, type CostPool } from '../../../shared/stock/issue-costs.ts';

// Three deliveries, 20 g at 1.70, 30 g at 1.95, 25 g at 2.10, and an issue after each, worked by hand on paper:
// oldest first 21.25, 7.5 · 1.70 + 17.5 · 1.95 = 46.875, 12.5 · 1.95 + 5.9 · 2.10 = 36.765, left 19.1 · 2.10 = 40.11;
// average 21.25 (1.70), 47.50 (1.90), 37.413333 (2.033333), left 38.836667. Either way 145.00 was paid.
const deliveries = [
  { lot: 'L1', tenthMg: 200_000, costPerG: '1.70', issue: 125_000 },
  { lot: 'L2', tenthMg: 300_000, costPerG: '1.95', issue: 250_000 },
  { lot: 'L3', tenthMg: 250_000, costPerG: '2.10', issue: 184_000 },
];

test('takeOldestFirst() uses up one delivery after the other', () => {
  let layers: CostLayer[] = [];
  const costs = deliveries.map(({ issue, ...delivery }) => {
    const out = takeOldestFirst([...layers, delivery], issue);
    layers = out.layers;
    return out.cost;
  });
  expect(costs).toEqual(['21.250000', '46.875000', '36.765000']);
  expect(layers).toEqual([{ lot: 'L3', tenthMg: 191_000, costPerG: '2.10' }]);
  expect(takeOldestFirst(layers, 191_000)).toEqual({
    cost: '40.110000',
    taken: [{ lot: 'L3', tenthMg: 191_000, cost: '40.110000' }],
    layers: [],
    shortTenthMg: 0,
  });
});

test('takeAtAverage() takes what a gram cost on the whole', () => {
  let pool: CostPool = { tenthMg: 0, value: '0' };
  const costs = deliveries.map(({ issue, ...delivery }) => {
    const out = takeAtAverage(addToPool(pool, delivery), issue);
    pool = out.pool;
    return out.cost;
  });
  expect(costs).toEqual(['21.250000', '47.500000', '37.413333']);
  expect(pool).toEqual({ tenthMg: 191_000, value: '38.836667' });
  expect(takeAtAverage(pool, 191_000)).toEqual({ cost: '38.836667', pool: { tenthMg: 0, value: '0.000000' } });
});

test('takeOldestFirst() says what no delivery covers', () => {
  expect(takeOldestFirst([{ lot: 'L1', tenthMg: 100, costPerG: '2' }], 150)).toMatchObject({
    cost: '0.020000',
    layers: [],
    shortTenthMg: 50,
  });
});

test('nothing is lost or made, whatever is issued', () => {
  const aLayer = fc.record({
    lot: fc.string(),
    tenthMg: fc.integer({ min: 0, max: 500_000 }),
    costPerG: fc.integer({ min: 0, max: 5_000_000 }).map((millionths) => (millionths / 1e6).toFixed(6)),
  });
  fc.assert(
    fc.property(fc.array(aLayer), fc.integer({ min: 0, max: 1_000_000 }), (layers, tenthMg) => {
      const whole = layers.reduce((total, layer) => total + layer.tenthMg, 0);
      const out = takeOldestFirst(layers, tenthMg);
      const taken = out.taken.reduce((total, part) => total + part.tenthMg, 0);
      const left = out.layers.reduce((total, layer) => total + layer.tenthMg, 0);
      expect(taken + left).toBe(whole);
      expect(taken + out.shortTenthMg).toBe(tenthMg);
      const pool = layers.reduce(addToPool, { tenthMg: 0, value: '0' });
      if (tenthMg > pool.tenthMg) return;
      const average = takeAtAverage(pool, tenthMg);
      expect(Number(average.cost) + Number(average.pool.value)).toBeCloseTo(Number(pool.value), 6);
      expect(Number(average.pool.value)).toBeGreaterThanOrEqual(0);
    }),
  );
});

test('a quantity is a whole number of tenths of a milligram', () => {
  expect(() => takeOldestFirst([], -1)).toThrow('tenthMg must be a whole number, 0 or more; it is -1');
  expect(() => takeOldestFirst([{ lot: 'L1', tenthMg: 0.5, costPerG: '1' }], 1)).toThrow('L1.tenthMg must be a whole number');
  expect(() => addToPool({ tenthMg: 0, value: '0' }, { tenthMg: 0.5, costPerG: '1' })).toThrow('tenthMg must be a whole number');
  expect(() => takeAtAverage({ tenthMg: 10, value: '1' }, 11)).toThrow('tenthMg must be at most what there is, 10; it is 11');
});

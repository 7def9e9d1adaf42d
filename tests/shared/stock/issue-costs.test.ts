import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { takeOldestFirst, type CostLayer } from '../../../shared/stock/issue-costs.ts';

// Three deliveries, 20 g at 1.70, 30 g at 1.95, 25 g at 2.10, and an issue after each, worked by hand on paper:
// 21.25, 7.5 · 1.70 + 17.5 · 1.95 = 46.875, 12.5 · 1.95 + 5.9 · 2.10 = 36.765, left 19.1 · 2.10 = 40.11; 145.00 was paid in all.
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
    }),
  );
});

test('a quantity is a whole number of tenths of a milligram', () => {
  expect(() => takeOldestFirst([], -1)).toThrow('tenthMg must be a whole number, 0 or more; it is -1');
  expect(() => takeOldestFirst([{ lot: 'L1', tenthMg: 0.5, costPerG: '1' }], 1)).toThrow('L1.tenthMg must be a whole number');
});

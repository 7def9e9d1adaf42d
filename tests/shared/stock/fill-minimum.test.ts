import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { fillMinimum, type OrderCandidate } from '../../../shared/stock/fill-minimum.ts';

const candidate = (given: Partial<OrderCandidate> & { id: string }): OrderCandidate => ({
  positionG: 10,
  orderPointG: 5,
  rateGPerWeek: 0.3,
  orderG: 10,
  costMinor: 2000,
  ...given,
});

// Worked by hand: hard wire stands at 4.1 + 0 − 1.3 = 2.8 g, under its point of 3.5, and 25 g of it are 49.83. The minimum is
// 150.00. Paste stands at 1.14 of its point, 10 g are 61.00; medium at 1.50, 25 g are 49.03: 49.83 + 61.00 + 49.03 = 159.86.
test('fillMinimum() brings what is nearest its point along until the minimum is met', () => {
  const drawer = [
    candidate({ id: 'easy', positionG: 9.3, orderPointG: 4.1, costMinor: 4410 }),
    candidate({ id: 'medium', positionG: 4.5, orderPointG: 3, orderG: 25, costMinor: 4903 }),
    candidate({ id: 'unused', positionG: 5.1, orderPointG: 5, rateGPerWeek: 0, costMinor: 9900 }),
    candidate({ id: 'hard', positionG: 2.8, orderPointG: 3.5, orderG: 25, costMinor: 4983 }),
    candidate({ id: 'paste', positionG: 2.28, orderPointG: 2, orderG: 10, costMinor: 6100 }),
  ];
  expect(fillMinimum(drawer, 15_000)).toEqual({
    lines: [
      { id: 'hard', because: 'at_its_point', positionToPoint: 0.8 },
      { id: 'paste', because: 'companion', positionToPoint: 1.14 },
      { id: 'medium', because: 'companion', positionToPoint: 1.5 },
    ],
    totalMinor: 15_986,
    minimumMet: true,
  });
  // Without the rest no one product is bought twice to reach it.
  expect(fillMinimum(drawer.slice(3, 4), 15_000)).toMatchObject({ totalMinor: 4983, minimumMet: false });
  expect(fillMinimum(drawer.slice(0, 2), 15_000)).toEqual({ lines: [], totalMinor: 0, minimumMet: false });
});

const anyCandidate = fc
  .record({
    positionG: fc.integer({ min: 0, max: 50 }),
    orderPointG: fc.integer({ min: 0, max: 20 }),
    rateGPerWeek: fc.constantFrom(0, 0.1, 2),
    orderG: fc.integer({ min: 1, max: 50 }),
    costMinor: fc.integer({ min: 0, max: 20_000 }),
  })
  .map((one) => ({ id: '', ...one }));

test('an order holds all that is due, each product once, and no companion too many', () => {
  fc.assert(
    fc.property(fc.array(anyCandidate, { maxLength: 12 }), fc.integer({ min: 0, max: 60_000 }), (drawer, minimumMinor) => {
      const named = drawer.map((one, index) => ({ ...one, id: `p${index}` }));
      const { lines, totalMinor, minimumMet } = fillMinimum(named, minimumMinor);
      const ids = lines.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      const due = named.filter(({ positionG, orderPointG }) => positionG <= orderPointG).map(({ id }) => id);
      expect(lines.filter(({ because }) => because === 'at_its_point').map(({ id }) => id)).toEqual(due);
      expect(minimumMet).toBe(totalMinor >= minimumMinor);
      const last = lines.at(-1);
      if (last?.because === 'companion')
        expect(totalMinor - named.find(({ id }) => id === last.id)!.costMinor).toBeLessThan(minimumMinor);
    }),
  );
  expect(() => fillMinimum([], -1)).toThrow('minimumMinor must be 0 or more; it is -1');
});

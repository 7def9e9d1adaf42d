import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import { intermittentRate } from '../../../shared/stock/intermittent-rate.ts';
import { orderQuantity } from '../../../shared/stock/order-quantity.ts';
import { normalOrderPoint } from '../../support/normal-order-point.ts';

// The package has no types of its own.
const { jStat } = createRequire(import.meta.url)('jstat') as {
  jStat: {
    normal: { inv(share: number, mean: number, deviation: number): number };
    percentile(values: number[], share: number): number;
  };
};

const terms = { orderCostMinor: 1000, priceMinorPerG: 100, holdingFraction: 0.5, horizonWeeks: 5200, packG: 0.001 };

// Harris (1913); Heizer & Render, inventory chapter, Examples 3–5: D 1000, S 10, H 0.50: Q 200, 5 orders a year, 100.00 a year.
test('the cheapest order of the textbook', () => {
  const { economicG } = orderQuantity({ ...terms, rateGPerWeek: 1000 / 52 });
  expect(economicG).toBeCloseTo(200, 9);
  expect(1000 / economicG).toBeCloseTo(5, 9);
  expect((1000 / economicG) * 10 + (economicG / 2) * 0.5).toBeCloseTo(100, 9);
});

// The same formula for grams of solder: D 365 g, S 18.00, 1.45 a gram, a quarter a year to keep: 190.3897998 g.
test('the cheapest order of a year of solder', () => {
  const solder = { ...terms, rateGPerWeek: 365 / 52, orderCostMinor: 1800, priceMinorPerG: 145, holdingFraction: 0.25 };
  expect(orderQuantity(solder).economicG).toBeCloseTo(190.3897998, 6);
});

// Heizer & Render, probabilistic reorder point: mean 350, deviation 10, 95 %: z 1.645, safety stock 16.45, point 366.45.
test('the order point of the textbook, for a demand that is normal', () => {
  expect(jStat.normal.inv(0.95, 0, 1) * 10).toBeCloseTo(16.44853627, 6);
  expect(normalOrderPoint({ mean: 350, deviation: 10 })).toBeCloseTo(366.4485363, 4);
  expect(normalOrderPoint({ mean: 350, deviation: 10 })).toBeCloseTo(jStat.normal.inv(0.95, 350, 10), 4);
});

// Croston (1972), both averages begun at the first demand, α 0.1; Syntetos & Boylan (2005) take off α/2.
test('the rate of intermittent demand', () => {
  const { sizeG, gapWeeks, rateGPerWeek } = intermittentRate([0, 0, 3, 0, 0, 0, 4, 0, 2, 0, 0, 5], 0.1);
  expect([sizeG, gapWeeks, sizeG / gapWeeks, rateGPerWeek]).toEqual(
    [3.191, 2.991, 1.066867268, 1.013523905].map((value): unknown => expect.closeTo(value, 8)),
  );
});

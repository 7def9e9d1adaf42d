import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { intermittentRate } from '../../../shared/stock/intermittent-rate.ts';
import { orderQuantity } from '../../../shared/stock/order-quantity.ts';
import { reorderPoint, type ReorderRequest } from '../../../shared/stock/reorder-point.ts';

// Croston (1972) worked with α 0.1 and both averages begun at the first demand: size 3.191, gap 2.991, 1.0669 a period;
// Syntetos & Boylan (2005) take off α/2 of it: 1.0135.
test('intermittentRate() follows the published recurrences', () => {
  const { sizeG, gapWeeks, rateGPerWeek } = intermittentRate([0, 0, 3, 0, 0, 0, 4, 0, 2, 0, 0, 5], 0.1);
  expect([sizeG, gapWeeks]).toEqual([expect.closeTo(3.191, 9), expect.closeTo(2.991, 9)]);
  expect(rateGPerWeek).toBeCloseTo(0.95 * 1.066867268, 9);
});

test('intermittentRate() of no use, and of the same use every week', () => {
  expect(intermittentRate([0, 0, 0], 0.15)).toEqual({ sizeG: 0, gapWeeks: 0, rateGPerWeek: 0 });
  expect(intermittentRate([2, 2, 2, 2], 0.15).rateGPerWeek).toBeCloseTo(0.925 * 2, 12);
  expect(() => intermittentRate([1, -1], 0.15)).toThrow('weeklyUseG.1 must be 0 or more; it is -1');
});

// Heizer & Render, Operations Management, inventory chapter: D 1000 a year, S 10.00, H 0.50 a year: 200 units.
test('orderQuantity() gives the textbook quantity', () => {
  const textbook = {
    rateGPerWeek: 1000 / 52,
    orderCostMinor: 1000,
    priceMinorPerG: 100,
    holdingFraction: 0.5,
    horizonWeeks: 520,
    packG: 1,
  };
  const { economicG, orderG } = orderQuantity(textbook);
  expect(economicG).toBeCloseTo(200, 9);
  expect(orderG).toBe(200);
});

// Hard solder wire, 0.388064 g a week at 1.9932 a gram, 14.00 an order, a fifth a year to keep: 37.65 g would be cheapest, a
// year uses 20.18 g, which five packs of 5 g cover; worked by hand.
const wire = {
  rateGPerWeek: 0.388064,
  orderCostMinor: 1400,
  priceMinorPerG: 199.32,
  holdingFraction: 0.2,
  horizonWeeks: 52,
  packG: 5,
};
test('orderQuantity() buys no more than the horizon uses, in whole packs', () => {
  const { economicG, capG, orderG } = orderQuantity(wire);
  expect([economicG, capG]).toEqual([expect.closeTo(37.65, 2), expect.closeTo(20.18, 2)]);
  expect(orderG).toBe(25);
});

test.each([
  [{ rateGPerWeek: 0 }, 5],
  [{ orderCostMinor: 0 }, 5],
  [{ priceMinorPerG: 0 }, 25],
  [{ horizonWeeks: 26 }, 15],
])('orderQuantity() with %j', (changes, orderG) => {
  expect(orderQuantity({ ...wire, ...changes }).orderG).toBe(orderG);
});

test('orderQuantity() refuses a pack of nothing, and a negative price', () => {
  expect(() => orderQuantity({ ...wire, packG: 0 })).toThrow('packG must be 0.001 or more; it is 0');
  expect(() => orderQuantity({ ...wire, priceMinorPerG: -1 })).toThrow('priceMinorPerG must be 0 or more; it is -1');
});

// Forty weeks, all nothing but 3.0 and 0.5 in the middle and 0.4 every fifth: of 38 windows of three weeks, number 38 by size
// holds 3.0 + 0.5 + 0.4, number 37 (0.95 · 38 = 36.1) holds 3.0 + 0.5.
const fortyWeeks = Array.from({ length: 40 }, (_, week) => (week === 19 ? 3 : week === 20 ? 0.5 : week % 5 === 1 ? 0.4 : 0));
const request: ReorderRequest = {
  weeklyUseG: fortyWeeks,
  largestPieceG: 2.1,
  leadWeeks: 2,
  reviewWeeks: 1,
  onHandG: 4.1,
  onOrderG: 0,
  heldG: 1.3,
  ...wire,
};

test('reorderPoint() takes the window that 19 of 20 stay within', () => {
  const found = reorderPoint(request);
  expect(found).toMatchObject({ orderPointG: 3.5, decidedBy: 'use', orderNow: true });
  expect(found.working).toEqual([
    '40 weeks hold 38 windows of 3 weeks; number 37 by size, the 95 % point, used 3.5 g.',
    'The biggest piece took 2.1 g: the window decides, the point is 3.5 g.',
    expect.stringMatching(/^A use is .* g a week\.$/),
    expect.stringMatching(/^The cheapest order is .* 52 weeks of use are .* in packs of 5 g\.$/),
    'On hand 4.1 + on order 0 − held 1.3 = 2.8 g, at or under the point of 3.5 g: order now.',
  ]);
});

test.each([
  [{ largestPieceG: 6 }, { orderPointG: 6, decidedBy: 'largest_piece', orderNow: true }],
  [{ onOrderG: 0.7 }, { orderPointG: 3.5, orderNow: true }],
  [{ onOrderG: 0.71 }, { orderPointG: 3.5, orderNow: false }],
  [{ onHandG: -0.02, heldG: 0 }, { orderNow: true }],
  [{ weeklyUseG: fortyWeeks.slice(0, 11) }, { orderPointG: 7.1, decidedBy: 'short_history' }],
  [{ weeklyUseG: [] }, { orderPointG: 7.1, decidedBy: 'short_history', rateGPerWeek: 0, orderG: 5 }],
  [{ leadWeeks: 40 }, { decidedBy: 'short_history' }],
  [
    { leadWeeks: 0.5, reviewWeeks: 1.5 },
    { decidedBy: 'use', orderPointG: 3 },
  ],
])('reorderPoint() with %j', (changes, expected) => {
  expect(reorderPoint({ ...request, ...changes })).toMatchObject(expected);
});

test.each([
  [{ leadWeeks: 0, reviewWeeks: 0 }, 'leadWeeks must be with the review weeks, a week at least; it is 0'],
  [{ heldG: -1 }, 'heldG must be 0 or more; it is -1'],
  [{ onHandG: Number.NaN }, 'onHandG must be a finite number; it is NaN'],
  [{ largestPieceG: Infinity }, 'largestPieceG must be 0 or more; it is Infinity'],
])('reorderPoint() refuses %j', (changes, message) => {
  expect(() => reorderPoint({ ...request, ...changes })).toThrow(message);
});

test('reorderPoint() never falls when every week used more, nor when the lead grows', () => {
  const someWeeks = fc.array(
    fc.integer({ min: 0, max: 50 }).map((tenths) => tenths / 10),
    { minLength: 20, maxLength: 60 },
  );
  fc.assert(
    fc.property(someWeeks, fc.integer({ min: 1, max: 6 }), (weeklyUseG, leadWeeks) => {
      const at = (changes: Partial<ReorderRequest>) =>
        reorderPoint({ ...request, weeklyUseG, leadWeeks, ...changes }).orderPointG;
      expect(at({ weeklyUseG: weeklyUseG.map((useG) => useG + 0.5) })).toBeGreaterThan(at({}) - 1e-9);
      expect(at({ leadWeeks: leadWeeks + 1 })).toBeGreaterThanOrEqual(at({}) - 1e-9);
      expect(at({})).toBeGreaterThanOrEqual(request.largestPieceG);
    }),
  );
});

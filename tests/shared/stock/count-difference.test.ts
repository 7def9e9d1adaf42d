import { expect, test } from 'vitest';
import { countDifference, trimFromUse } from '../../../shared/stock/count-difference.ts';

// Worked by hand: the book has 23.46 g, 22.91 g are counted, 14.20 g were booked as used. 2 % of 14.20 is 0.284; 14.20 + 0.55 =
// 14.75 were really used, 1.0387 times what was planned.
test('countDifference() holds a count against the book and the use since the last', () => {
  const found = countDifference({ bookG: 23.46, countedG: 22.91, usedG: 14.2 });
  expect(found).toMatchObject({ differenceG: -0.55, toleranceG: 0.284, withinTolerance: false, trueUseG: 14.75 });
  expect(found.ratio).toBeCloseTo(1.0387, 4);
});

test('countDifference() of little use is held to a twentieth of a gram', () => {
  const within = countDifference({ bookG: 5, countedG: 4.95, usedG: 1 });
  expect(within).toMatchObject({ toleranceG: 0.05, withinTolerance: true, differenceG: -0.05 });
  expect(countDifference({ bookG: 5, countedG: 4.9499, usedG: 1 }).withinTolerance).toBe(false);
  expect(countDifference({ bookG: 5, countedG: 5.2, usedG: 0 })).toMatchObject({ differenceG: 0.2, trueUseG: -0.2, ratio: null });
  expect(() => countDifference({ bookG: 5, countedG: -1, usedG: 0 })).toThrow('countedG must be 0 or more; it is -1');
});

// (1 + 0.3) · 14.75/14.20 = 1.350352…
test('trimFromUse() is the trim that would have planned what was used', () => {
  expect(trimFromUse(0.3, 14.75 / 14.2)).toBeCloseTo(0.350352, 6);
  expect(trimFromUse(0.3, 1)).toBeCloseTo(0.3, 12);
  expect(trimFromUse(0, 0.5)).toBe(0);
  expect(trimFromUse(1, 5)).toBe(2);
  expect(() => trimFromUse(0.3, 0)).toThrow('ratio must be > 0; it is 0');
});

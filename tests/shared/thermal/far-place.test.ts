import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { awayMm, farthestPlace } from '../../../shared/thermal/far-place.ts';
import { placeFaults } from '../../../shared/design/place-faults.ts';
import type { Form } from '../../../shared/design/design.ts';
import { FORMS } from '../../support/any-heat.ts';

// A right triangle of 24, 18 and 30 mm.
test('on a sheet it is the far corner', () => {
  const far = farthestPlace({ kind: 'sheet', lengthMm: 26, widthMm: 20, thicknessMm: 1 }, [
    { at: { xMm: 1, yMm: 1 }, beforeMm: 2 },
  ]);
  expect(far).toEqual({ at: { xMm: 25, yMm: 19 }, awayMm: 32 });
});

test('on a ring it is opposite, a diameter away; of two ways in the nearer counts', () => {
  const form = { kind: 'square_ring', meanDiameterMm: 20, sideMm: 2 } as const;
  const one = farthestPlace(form, [{ at: { alongMm: 0 }, beforeMm: 0 }])!;
  expect(one.at.alongMm).toBeCloseTo(10 * Math.PI, 2);
  expect(one.awayMm).toBeCloseTo(20, 3);
  const two = farthestPlace(form, [
    { at: { alongMm: 0 }, beforeMm: 0 },
    { at: { alongMm: 10 * Math.PI }, beforeMm: 0 },
  ])!;
  expect(two.awayMm).toBeCloseTo(20 / Math.SQRT2, 2);
});

test('on no part that nothing leads to', () => {
  expect(farthestPlace({ kind: 'ball', diameterMm: 2 }, [])).toBeNull();
});

test('it is on the metal, whatever the form, and no other end of it is farther than it says', () => {
  fc.assert(
    fc.property(
      fc.oneof(...(Object.values(FORMS) as fc.Arbitrary<Form>[])),
      fc.double({ min: 0, max: 9, noNaN: true }),
      (form, beforeMm) => {
        const ways = [{ at: {}, beforeMm }];
        const far = farthestPlace(form, ways)!;
        expect(placeFaults(form, { part: 'base', ...far.at })).toEqual([]);
        expect(far.awayMm).toBeGreaterThanOrEqual(beforeMm);
        expect(awayMm(form, ways, far.at)).toBeCloseTo(far.awayMm, 9);
      },
    ),
    { numRuns: 200 },
  );
});

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Form } from '../../../shared/design/design.ts';
import { formSize } from '../../../shared/forms/form-size.ts';

const size = (form: Form) => {
  const { volumeMm3, areaMm2 } = formSize(form, 'part');
  return { volumeMm3: volumeMm3!.toNumber(), areaMm2: areaMm2.toNumber() };
};

// Mensuration of solids, Machinery's Handbook, 31st ed.: cylinder πr²h, sphere πd³/6 and πd², torus 2π²Rr² and 4π²Rr,
// segment of a circle ½(r·l − c(r − h)) with the arc l; here with round numbers worked by hand.
test.each([
  [{ kind: 'sheet', lengthMm: 30, widthMm: 20, thicknessMm: 0.8 }, 480, 1200],
  [{ kind: 'disc', diameterMm: 2, thicknessMm: 1 }, Math.PI, 4 * Math.PI],
  [{ kind: 'outline', areaMm2: 150, thicknessMm: 0.9 }, 135, 300],
  [{ kind: 'washer', outsideDiameterMm: 4, insideDiameterMm: 2, thicknessMm: 1 }, 3 * Math.PI, 12 * Math.PI],
  [{ kind: 'band', insideDiameterMm: 9, heightMm: 3, thicknessMm: 1 }, 30 * Math.PI, 60 * Math.PI],
  [{ kind: 'bar', lengthMm: 10, widthMm: 2, thicknessMm: 3 }, 60, 100],
  [{ kind: 'round_wire', lengthMm: 10, diameterMm: 2 }, 10 * Math.PI, 20 * Math.PI],
  [{ kind: 'square_wire', lengthMm: 10, sideMm: 2 }, 40, 80],
  [{ kind: 'tube', lengthMm: 5, outsideDiameterMm: 5, insideDiameterMm: 4 }, 11.25 * Math.PI, 45 * Math.PI],
  [{ kind: 'wire_ring', insideDiameterMm: 8, diameterMm: 2 }, 2 * Math.PI ** 2 * 5, 4 * Math.PI ** 2 * 5],
  [{ kind: 'square_ring', meanDiameterMm: 10, sideMm: 2 }, 40 * Math.PI, 80 * Math.PI],
  [{ kind: 'cone', smallDiameterMm: 10, largeDiameterMm: 20, slantMm: 30, thicknessMm: 2 }, 900 * Math.PI, 900 * Math.PI],
  [{ kind: 'dome', blankDiameterMm: 2, thicknessMm: 1 }, Math.PI, 2 * Math.PI],
  [{ kind: 'ball', diameterMm: 2 }, (4 / 3) * Math.PI, 4 * Math.PI],
  // A true half: half a cylinder, and its flat.
  [{ kind: 'half_round_wire', lengthMm: 10, widthMm: 4, heightMm: 2 }, 20 * Math.PI, 40 + 20 * Math.PI],
  // A quarter-circle arc over a chord of 2√2, R 2: the segment ½(R·πR/2 − 2√2·√2).
  [
    { kind: 'half_round_wire', lengthMm: 1, widthMm: 2 * Math.SQRT2, heightMm: 2 - Math.SQRT2 },
    Math.PI - 2,
    2 * Math.SQRT2 + Math.PI,
  ],
] satisfies [Form, number, number][])('formSize(%j)', (form, volumeMm3, areaMm2) => {
  expect(size(form).volumeMm3).toBeCloseTo(volumeMm3, 9);
  expect(size(form).areaMm2).toBeCloseTo(areaMm2, 9);
});

const aSizeMm = fc.double({ min: 0.1, max: 100, noNaN: true });

test('formSize() of a thin tube comes near the flat strip it was bent from', () => {
  fc.assert(
    fc.property(aSizeMm, aSizeMm, (diameterMm, lengthMm) => {
      const wallMm = diameterMm / 1e4;
      const tube = size({
        kind: 'tube',
        lengthMm,
        outsideDiameterMm: diameterMm + wallMm,
        insideDiameterMm: diameterMm - wallMm,
      });
      const strip = size({ kind: 'sheet', lengthMm: Math.PI * diameterMm, widthMm: lengthMm, thicknessMm: wallMm });
      expect(tube.volumeMm3 / strip.volumeMm3).toBeCloseTo(1, 9);
      expect(tube.areaMm2 / strip.areaMm2).toBeCloseTo(1, 9);
    }),
  );
});

test('formSize() of a half-round wire grows with its height, up to a whole circle', () => {
  fc.assert(
    fc.property(aSizeMm, fc.double({ min: 0.05, max: 0.9, noNaN: true }), (widthMm, share) => {
      const at = (heightMm: number) => size({ kind: 'half_round_wire', lengthMm: 1, widthMm, heightMm }).volumeMm3;
      expect(at(widthMm * share)).toBeLessThan(at(widthMm * (share + 0.1)));
      expect(at(widthMm * share)).toBeGreaterThan((widthMm * widthMm * share) / 2);
    }),
  );
});

test.each([
  [
    { kind: 'tube', lengthMm: 5, outsideDiameterMm: 4, insideDiameterMm: 5 },
    'bail.insideDiameterMm must be less than outside, 4 mm; it is 5',
  ],
  [
    { kind: 'washer', outsideDiameterMm: 4, insideDiameterMm: 4, thicknessMm: 1 },
    'bail.insideDiameterMm must be less than outside, 4 mm; it is 4',
  ],
  [{ kind: 'square_ring', meanDiameterMm: 2, sideMm: 2 }, 'bail.sideMm must be less than the mean diameter, 2 mm; it is 2'],
  [
    { kind: 'cone', smallDiameterMm: 3, largeDiameterMm: 2, slantMm: 1, thicknessMm: 1 },
    'bail.smallDiameterMm must be at most the large one, 2 mm; it is 3',
  ],
  [{ kind: 'ball', diameterMm: Number.NaN }, 'bail.diameterMm must be > 0; it is NaN'],
  [{ kind: 'ball', diameterMm: Infinity }, 'bail.diameterMm must be > 0; it is Infinity'],
  [{ kind: 'outline', areaMm2: 0, thicknessMm: 1 }, 'bail.areaMm2 must be > 0; it is 0'],
  [{ kind: 'weighed', massG: 0, areaMm2: 10 }, 'bail.massG must be > 0; it is 0'],
  [{ kind: 'weighed', massG: 1, areaMm2: -1 }, 'bail.areaMm2 must be 0 or more; it is -1'],
] satisfies [Form, string][])('formSize(%j) is refused', (form, message) => {
  expect(() => formSize(form, 'bail')).toThrow(message);
});

import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { lengthOfMassMm, massOfLengthG, type LengthForm } from '../../../shared/stock/metal-length.ts';
import { gaugeToMm } from '../../../shared/units/gauge.ts';

const wire = (diameterMm: number) => ({ form: { kind: 'round_wire' as const, diameterMm }, densityGPerCm3: 10.36 });

// By hand, sterling of 10.36 g/cm³: a metre of round wire of 1.2 mm is 1130.973 mm³, 11.71688 g; 18 gauge is 1.02362 mm by the
// American table and 1.2192 mm by the British, so 100 mm of such a wire are about 0.8526 or 1.20949 g.
test('massOfLengthG() weighs a length, in mm or by a named gauge', () => {
  expect(massOfLengthG(wire(1.2), 1000)).toBeCloseTo(11.71688, 5);
  expect(massOfLengthG(wire(gaugeToMm('awg', 18)), 100)).toBeCloseTo(0.8526, 3);
  expect(massOfLengthG(wire(gaugeToMm('swg', 18)), 100)).toBeCloseTo(1.20949, 4);
});

// 10.36 · 30 · 20 · 0.8 / 1000; 10.36 · 4 · 0.4 · 50 / 1000; 10.36 · π/4 · (5² − 4²) · 5 / 1000.
test.each<[LengthForm, number, number | undefined, number]>([
  [{ kind: 'sheet', thicknessMm: 0.8 }, 30, 20, 4.9728],
  [{ kind: 'strip', widthMm: 4, thicknessMm: 0.4 }, 50, undefined, 0.8288],
  [{ kind: 'tube', outsideDiameterMm: 5, insideDiameterMm: 4 }, 5, undefined, 0.366153],
  [{ kind: 'square_wire', sideMm: 2 }, 10, undefined, 0.4144],
])('massOfLengthG() of %j', (form, lengthMm, widthMm, massG) => {
  expect(massOfLengthG({ form, densityGPerCm3: 10.36, widthMm }, lengthMm)).toBeCloseTo(massG, 6);
});

test('lengthOfMassMm() is the way back', () => {
  const size = fc.double({ min: 0.1, max: 20, noNaN: true });
  fc.assert(
    fc.property(size, size, fc.double({ min: 1, max: 2000, noNaN: true }), (widthMm, thicknessMm, lengthMm) => {
      const strip = { form: { kind: 'strip' as const, widthMm, thicknessMm }, densityGPerCm3: 10.36 };
      expect(lengthOfMassMm(strip, massOfLengthG(strip, lengthMm)) / lengthMm).toBeCloseTo(1, 9);
    }),
  );
  const sheet = { form: { kind: 'sheet' as const, thicknessMm: 1 }, densityGPerCm3: 10.36 };
  expect(() => massOfLengthG(sheet, 10)).toThrow('widthMm must be said, for sheet');
  expect(() => lengthOfMassMm(sheet, 0)).toThrow('massG must be > 0; it is 0');
});

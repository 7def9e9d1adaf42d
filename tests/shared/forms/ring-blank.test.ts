import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { weigh } from '../../../shared/forms/form-size.ts';
import { aroundMm, ringBlank, type RingStock } from '../../../shared/forms/ring-blank.ts';

const strip = (widthMm: number, thicknessMm: number): RingStock => ({ kind: 'strip', widthMm, thicknessMm });
const blank = (insideDiameterMm: number, stock: RingStock, overMm = 0) =>
  ringBlank({ insideCircumferenceMm: aroundMm(insideDiameterMm), stock, densityGPerCm3: 10.36, overMm });

// A public bench guide on ring blanks, read: 17.3 mm across in strip of 1.0 mm is 18.3 · π = 57.49 mm.
test('ringBlank() gives the published example', () => {
  expect(blank(17.3, strip(3, 1)).blankMm).toBeCloseTo(57.49, 2);
});

/** A ring of size 54 in strip of 1.5 mm, with a millimetre to file off. */
const at = (widthMm: number) =>
  ringBlank({ insideCircumferenceMm: 54, stock: strip(widthMm, 1.5), densityGPerCm3: 10.36, overMm: 1 });

// A supplier's public article, read: π · thickness on top of the inside circumference, and 0.5 mm more over 4 mm of width.
test('a wide ring is cut half a millimetre longer, and what is filed off comes on top', () => {
  expect(at(4)).toMatchObject({ wideAllowanceMm: 0, blankMm: expect.closeTo(54 + 1.5 * Math.PI + 1, 9) });
  expect(at(4.1)).toMatchObject({ wideAllowanceMm: 0.5, neutralMm: expect.closeTo(54 + 1.5 * Math.PI, 9) });
  expect(at(6).blankMm).toBeCloseTo(54 + 1.5 * Math.PI + 0.5 + 1, 9);
  // 6 · 1.5 · 60.2124 · 10.36/1000
  expect(at(6).massG).toBeCloseTo(5.6142, 3);
  expect(at(6).massG - at(6).ringG).toBeCloseTo((6 * 1.5 * 1 * 10.36) / 1000, 9);
});

// ISO 8653: the size is the inside circumference in millimetres; 54 is 17.19 mm across.
test('a size of the standard is that many millimetres round', () => {
  const { insideDiameterMm } = ringBlank({ insideCircumferenceMm: 54, stock: strip(3, 1), densityGPerCm3: 10.36 });
  expect(insideDiameterMm).toBeCloseTo(17.19, 2);
});

const massOf = (form: Parameters<typeof weigh>[0]) => weigh(form, 10.36, 'ring').massG.toNumber();

// Bent, it is the ring that Pappus weighs: the band, the ring of wire and the ring of square wire.
test('the metal of the blank is that of the ring', () => {
  fc.assert(
    fc.property(fc.integer({ min: 100, max: 800 }), fc.integer({ min: 3, max: 40 }), (tenths, tenth) => {
      const [insideDiameterMm, thicknessMm] = [tenths / 10, tenth / 10];
      expect(blank(insideDiameterMm, strip(3, thicknessMm)).massG).toBeCloseTo(
        massOf({ kind: 'band', insideDiameterMm, heightMm: 3, thicknessMm }),
        9,
      );
      expect(blank(insideDiameterMm, { kind: 'round_wire', diameterMm: thicknessMm }).massG).toBeCloseTo(
        massOf({ kind: 'wire_ring', insideDiameterMm, diameterMm: thicknessMm }),
        9,
      );
      expect(blank(insideDiameterMm, { kind: 'square_wire', sideMm: thicknessMm }).massG).toBeCloseTo(
        massOf({ kind: 'square_ring', meanDiameterMm: insideDiameterMm + thicknessMm, sideMm: thicknessMm }),
        9,
      );
    }),
  );
});

describe.each([
  [4, 2],
  [3.9, 1.2],
  [2.5, 0.7],
])('half-round %d × %d', (widthMm, heightMm) => {
  // The solid of revolution, summed in slices across the width: an arc above the flat, turned round the finger.
  test('is as long as the ring it becomes is heavy', () => {
    const insideMm = 17;
    const arcRadius = (widthMm ** 2 / 4 + heightMm ** 2) / (2 * heightMm);
    const slices = 20_000;
    let volumeMm3 = 0;
    for (let i = 0; i < slices; i++) {
      const x = ((i + 0.5) / slices - 0.5) * widthMm;
      const top = Math.sqrt(arcRadius ** 2 - x ** 2) - (arcRadius - heightMm);
      volumeMm3 += Math.PI * ((insideMm / 2 + top) ** 2 - (insideMm / 2) ** 2) * (widthMm / slices);
    }
    const { massG } = blank(insideMm, { kind: 'half_round_wire', widthMm, heightMm });
    expect(massG / ((volumeMm3 * 10.36) / 1000)).toBeCloseTo(1, 5);
  });
});

test.each([
  [{ insideCircumferenceMm: 0 }, 'insideCircumferenceMm'],
  [{ overMm: -1 }, 'overMm'],
  [{ insideCircumferenceMm: Number.NaN }, 'insideCircumferenceMm'],
  [{ stock: { kind: 'half_round_wire' as const, widthMm: 2, heightMm: 3 } }, 'heightMm'],
  [{ stock: strip(3, 0) }, 'thicknessMm'],
  [{ densityGPerCm3: 0 }, 'densityGPerCm3'],
])('ringBlank() refuses %j', (given, quantity) => {
  expect(() => ringBlank({ insideCircumferenceMm: 54, stock: strip(3, 1), densityGPerCm3: 10.36, ...given })).toThrow(quantity);
});

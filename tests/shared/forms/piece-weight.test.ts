import { expect, test } from 'vitest';
import type { Part } from '../../../shared/design/design.ts';
import { pieceWeight } from '../../../shared/forms/piece-weight.ts';

// A US law's worked limit (15 USC 296, by its arithmetic): 19.2 g of 925 and 0.8 g of 650 make 914 parts per thousand.
test('pieceWeight() mixes fineness by mass', () => {
  const solderLike = {
    densityGPerCm3: 9.5,
    finenessFraction: 0.65,
    solidusC: 671,
    liquidusC: 718,
    conductivityWPerMK: 150,
    specificHeatJPerGK: 0.27,
  };
  const weight = pieceWeight({
    parts: [
      { id: 'body', metal: 'sterling-925', form: { kind: 'weighed', massG: 19.2, areaMm2: 900 } },
      { id: 'inlay', metal: solderLike, form: { kind: 'weighed', massG: 0.8, areaMm2: 0 } },
    ],
  });
  expect(weight.totalG).toBe(20);
  expect(weight.fineness).toBeCloseTo(0.914, 12);
  expect(weight.parts[1]!.volumeMm3).toBeCloseTo(800 / 9.5, 9);
});

// 1 cm³ of sterling weighs its density, 10.36 g.
const cube: Part = { id: 'cube', metal: 'sterling-925', form: { kind: 'bar', lengthMm: 10, widthMm: 10, thicknessMm: 10 } };

test('pieceWeight() multiplies by the count', () => {
  expect(pieceWeight({ parts: [{ ...cube, count: 3 }] })).toEqual({
    parts: [{ part: 'cube', volumeMm3: 3000, massG: 31.08, areaMm2: 1200 }],
    totalG: 31.08,
    fineness: 0.925,
  });
});

test('pieceWeight() refuses half a part, an unknown metal and no parts at all', () => {
  expect(() => pieceWeight({ parts: [{ ...cube, count: 1.5 }] })).toThrow('cube.count must be a whole number from 1; it is 1.5');
  expect(() => pieceWeight({ parts: [{ ...cube, metal: 'tin' }] })).toThrow(/^metal must be one of/);
  expect(() => pieceWeight({ parts: [] })).toThrow('parts must be at least one; it is none');
});

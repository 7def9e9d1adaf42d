import fc from 'fast-check';
import { expect, test } from 'vitest';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { marginsInWords } from '../../../shared/thermal/margins-in-words.ts';

// Worked by hand from windows of 740–775, 690–735 and 650–705 °C under a peak of 750, 720 and 665 °C: hard softens by 10 and keeps
// 25 from running; hard in the third heat stays solid by 20; easy under 665 softens by 15 and keeps 40.
test.each([
  [-10, 25, 'predicted to soften, 10 °C past where it begins to melt', 'predicted not to run, by 25 °C'],
  [20, 55, 'predicted to stay solid by 20 °C', 'predicted not to run, by 55 °C'],
  [-15, 40, 'predicted to soften, 15 °C past where it begins to melt', 'predicted not to run, by 40 °C'],
  [-60, -20, 'predicted to soften, 60 °C past where it begins to melt', 'predicted to run, 20 °C past where it flows'],
])('marginsInWords() of %d and %d K says both', (solidMarginK, runMarginK, solid, run) => {
  const words = marginsInWords({ solidMarginK, runMarginK, uncertaintyK: 15 });
  expect(words.solid).toContain(solid);
  expect(words.run).toContain(run);
  expect(words.solid).toContain('give or take 15 °C');
});

test('a margin is never called safe, and its words tell its sign', () => {
  const margin = fc.double({ min: -200, max: 200, noNaN: true });
  fc.assert(
    fc.property(margin, fc.double({ min: 0, max: 120, noNaN: true }), (solidMarginK, windowK) => {
      const { solid, run } = marginsInWords({ solidMarginK, runMarginK: solidMarginK + windowK, uncertaintyK: 15 });
      expect(solid.startsWith('predicted to stay solid')).toBe(solidMarginK >= 0);
      expect(run.startsWith('predicted not to run')).toBe(solidMarginK + windowK >= 0);
      expect(`${solid}${run}`).not.toMatch(/safe|NaN/);
    }),
  );
});

test('marginsInWords() refuses what no joint has', () => {
  expect(() => marginsInWords({ solidMarginK: 10, runMarginK: 5, uncertaintyK: 15 })).toThrow(EngineInputError);
  expect(() => marginsInWords({ solidMarginK: 10, runMarginK: Number.NaN, uncertaintyK: 15 })).toThrow(EngineInputError);
  expect(() => marginsInWords({ solidMarginK: 10, runMarginK: 15, uncertaintyK: -1 })).toThrow(EngineInputError);
});

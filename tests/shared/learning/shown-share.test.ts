import fc from 'fast-check';
import { expect, test } from 'vitest';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { shownShare } from '../../../shared/learning/shown-share.ts';
import { jstat } from '../../support/jstat.ts';

// The studio's worked example: 6 of 14, 3 of 22, 1 of 41, none of 57.
test.each([
  [6, 14, 0.43],
  [3, 22, 0.15],
  [1, 41, 0.036],
  [0, 57, 0.009],
])('shownShare() of %d in %d is shown as %d', (happened, times, shown) => {
  expect(shownShare({ happened, times }).shown).toBeCloseTo(shown, shown < 0.1 ? 3 : 2);
});

test('what never happened is shown as under 3/n', () => {
  expect(shownShare({ happened: 0, times: 57 })).toMatchObject({ plain: 0, least: 0 });
  expect(shownShare({ happened: 0, times: 57 }).most).toBeCloseTo(0.053, 3);
  expect(shownShare({ happened: 0, times: 2 }).most).toBe(1);
  expect(shownShare({ happened: 0, times: 0 })).toEqual({ plain: null, shown: 0.5, least: 0, most: 1 });
});

// Clopper and Pearson's limits are quantiles of the beta distribution; jstat's are written apart from ours.
test('the interval is that of Clopper and Pearson, by the beta quantiles of another library', () => {
  const counts = fc
    .integer({ min: 1, max: 300 })
    .chain((times) => fc.tuple(fc.integer({ min: 1, max: times }), fc.constant(times)));
  fc.assert(
    fc.property(counts, ([happened, times]) => {
      const { least, most } = shownShare({ happened, times });
      expect(least).toBeCloseTo(jstat.beta.inv(0.025, happened, times - happened + 1), 6);
      if (happened < times) expect(most).toBeCloseTo(jstat.beta.inv(0.975, happened + 1, times - happened), 6);
      else expect(most).toBe(1);
    }),
  );
});

// R. G. Newcombe, Statistics in Medicine 17 (1998) 857, table I, method 5 (exact): 81 of 263 and 1 of 29.
test.each([
  [81, 263, 0.2527, 0.3676],
  [1, 29, 0.0009, 0.1776],
])('the interval of %d in %d is the published one', (happened, times, least, most) => {
  const share = shownShare({ happened, times });
  expect([share.least, share.most].map((limit) => Number(limit.toFixed(4)))).toEqual([least, most]);
});

test('the interval holds both shares, and more cases make it narrower', () => {
  const counts = fc
    .integer({ min: 1, max: 200 })
    .chain((times) => fc.tuple(fc.integer({ min: 0, max: times }), fc.constant(times)));
  fc.assert(
    fc.property(counts, ([happened, times]) => {
      const { plain, shown, least, most } = shownShare({ happened, times });
      expect(plain!).toBeGreaterThanOrEqual(least);
      expect(plain!).toBeLessThanOrEqual(most);
      expect(shown).toBeGreaterThan(0);
      expect(shown).toBeLessThan(1);
      const more = shownShare({ happened: happened * 4, times: times * 4 });
      expect(more.most - more.least).toBeLessThan(most - least);
    }),
  );
});

test('counts that are none are refused', () => {
  for (const wrong of [
    { happened: 3, times: 2 },
    { happened: -1, times: 2 },
    { happened: 0.5, times: 2 },
    { happened: 0, times: Number.NaN },
  ])
    expect(() => shownShare(wrong)).toThrow(EngineInputError);
});

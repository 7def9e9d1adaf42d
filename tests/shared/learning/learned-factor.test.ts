import fc from 'fast-check';
import { expect, test } from 'vitest';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { factorInWords } from '../../../shared/learning/factor-in-words.ts';
import { eightInTenMinutes, learnedFactor, pieceMinutes, unlearnedFactor } from '../../../shared/learning/learned-factor.ts';
import { median } from '../../../shared/learning/median.ts';
import { jstat } from '../../support/jstat.ts';

// Filing of seven pieces, worked by hand to six digits in the studio's recipe.
const GUESSED = [45, 60, 30, 130, 90, 40, 75];
const TAKEN = [58, 66, 41, 150, 88, 62, 96];
const RATIOS = TAKEN.map((taken, index) => taken / GUESSED[index]!);

test('learnedFactor() of seven filings is that of the worked example', () => {
  const { pieces, usualRatio, factor, shrunkSpread } = learnedFactor(RATIOS);
  expect(pieces).toBe(7);
  expect(usualRatio).toBeCloseTo(1.28, 10);
  expect(pieces / (pieces + 5)).toBeCloseTo(0.5833, 4);
  expect(factor).toBeCloseTo(1.267413, 6);
  expect(shrunkSpread).toBeCloseTo(0.226505, 6);
  expect(factor * 50).toBeCloseTo(63.4, 1);
  expect(eightInTenMinutes({ minutes: 50, factor, shrunkSpread })).toBeCloseTo(76.7, 1);
});

test('a forgotten timer hardly moves it, where a plain mean would jump to 2.94', () => {
  const forgotten = [...RATIOS, 740 / 50];
  expect(learnedFactor(forgotten).factor).toBeCloseTo(1.271081, 6);
  expect(forgotten.reduce((sum, ratio) => sum + ratio, 0) / forgotten.length).toBeCloseTo(2.94, 2);
});

// jstat, a statistics library written apart from ours.
test('median and spread are those of another library, and eight in ten is its normal quantile', () => {
  const anyRatios = fc.array(fc.double({ min: 0.3, max: 3.9, noNaN: true }), { minLength: 1, maxLength: 40 });
  fc.assert(
    fc.property(anyRatios, (ratios) => {
      const logs = ratios.map(Math.log);
      expect(median(logs)).toBeCloseTo(jstat.median(logs), 12);
      const centre = jstat.median(logs);
      const spread = 1.4826 * jstat.median(logs.map((log) => Math.abs(log - centre)));
      expect(learnedFactor(ratios).spread).toBeCloseTo(spread, 12);
      expect(learnedFactor(ratios).usualRatio).toBeCloseTo(Math.exp(centre), 12);
    }),
  );
  const { factor, shrunkSpread } = learnedFactor(RATIOS);
  const quantile = jstat.lognormal.inv(0.8, Math.log(factor), shrunkSpread);
  expect(eightInTenMinutes({ minutes: 1, factor, shrunkSpread })).toBeCloseTo(quantile, 4);
  expect(1 / jstat.normal.inv(0.75, 0, 1)).toBeCloseTo(1.4826, 4);
});

test('a factor lies between the prior and what was seen, whatever the order, and wild ratios count as the fences', () => {
  const anyRatios = fc.array(fc.double({ min: 0.01, max: 100, noNaN: true }), { minLength: 1, maxLength: 30 });
  const prior = fc.double({ min: 0.5, max: 2, noNaN: true });
  fc.assert(
    fc.property(anyRatios, prior, (ratios, start) => {
      const { factor, usualRatio, shrunkSpread } = learnedFactor(ratios, start);
      expect(factor).toBeGreaterThanOrEqual(Math.min(start, usualRatio) - 1e-12);
      expect(factor).toBeLessThanOrEqual(Math.max(start, usualRatio) + 1e-12);
      expect(usualRatio).toBeGreaterThanOrEqual(0.25 - 1e-12);
      expect(usualRatio).toBeLessThanOrEqual(4 + 1e-12);
      expect(shrunkSpread).toBeGreaterThan(0);
      expect(learnedFactor(ratios.toReversed(), start).factor).toBeCloseTo(factor, 12);
    }),
  );
});

test('pieceMinutes() of one operation is that operation; of several it lies under their sum, and above the expected', () => {
  const time = fc.record({
    minutes: fc.double({ min: 0, max: 500, noNaN: true }),
    factor: fc.double({ min: 0.3, max: 3, noNaN: true }),
    shrunkSpread: fc.double({ min: 0, max: 0.8, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(time, { minLength: 1, maxLength: 12 }), (operations) => {
      const { expected, eightInTen } = pieceMinutes(operations);
      const sum = operations.reduce((total, of) => total + eightInTenMinutes(of), 0);
      expect(eightInTen).toBeGreaterThanOrEqual(expected - 1e-9);
      expect(eightInTen).toBeLessThanOrEqual(sum + 1e-6 * (1 + sum));
      const [first] = operations;
      expect(pieceMinutes([first!]).eightInTen).toBeCloseTo(eightInTenMinutes(first!), 6);
    }),
  );
  // Two of σ 10 min each, by hand: √(100 + 100 + 0.6·100) = 16.1245, × 0.8416 = 13.5704 over 2 × 50.
  const shrunkSpread = Math.log(1 + (0.8416 * 10) / 50) / 0.8416;
  const two = pieceMinutes([1, 2].map(() => ({ minutes: 50, factor: 1, shrunkSpread })));
  expect(two.eightInTen).toBeCloseTo(113.5704, 4);
});

test('factorInWords() says it as a person would', () => {
  expect(factorInWords('filing', RATIOS)).toBe('six times out of seven filing took longer than planned, usually by a quarter');
  expect(factorInWords('sawing', [0.99])).toBe('no times out of one sawing took longer than planned, usually about as long');
  expect(factorInWords('polishing', [1.5, 0.8, 0.8])).toBe(
    'one time out of three polishing took longer than planned, usually by a fifth less',
  );
  expect(factorInWords('rolling walls', [3])).toContain('2 times as much again');
});

test('wrong numbers are refused', () => {
  for (const wrong of [0, -1, Number.NaN, Infinity]) {
    expect(() => learnedFactor([1, wrong])).toThrow(EngineInputError);
    expect(() => learnedFactor([1], wrong)).toThrow(EngineInputError);
    expect(() => factorInWords('filing', [wrong])).toThrow(EngineInputError);
    expect(() => unlearnedFactor(wrong)).toThrow(EngineInputError);
    expect(() => eightInTenMinutes({ minutes: 10, factor: wrong, shrunkSpread: 0.3 })).toThrow(EngineInputError);
  }
  expect(() => learnedFactor([])).toThrow(EngineInputError);
  expect(() => median([])).toThrow(EngineInputError);
  expect(() => pieceMinutes([{ minutes: -1, factor: 1, shrunkSpread: 0.3 }])).toThrow(EngineInputError);
  expect(() => eightInTenMinutes({ minutes: 10, factor: 1, shrunkSpread: Number.NaN })).toThrow(EngineInputError);
  expect(unlearnedFactor()).toEqual({ factor: 1.25, shrunkSpread: 0.3 });
});

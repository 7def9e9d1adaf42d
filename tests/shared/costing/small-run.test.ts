import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { packetShare } from '../../../shared/costing/packet-share.ts';
import { runFactor } from '../../../shared/costing/small-run.ts';
import { estimate } from '../../../shared/costing/estimate.ts';
import { anEstimateRequest } from '../../support/an-estimate-request.ts';

// Twelve links of 22 min for the first and 35 min of set-up: 22 · Σ k^(log₂ 0.85) = 181.4, and (181.4 + 35)/12 = 18.0 min a piece.
test('a run of twelve takes what the learning curve says', () => {
  expect(runFactor(12).times(22).toNumber()).toBeCloseTo(181.4, 1);
  const labour = [{ operation: 'links', role: 'bench', minutes: 22, setupMinutes: 35, run: { pieces: 12 } }];
  const { steps } = estimate(anEstimateRequest({ labour }));
  const minutes = Number(steps.find(({ key }) => key === 'labour.minutes')?.value);
  expect(minutes / 12).toBeCloseTo(18.0, 1);
  // The factor that was learned counts for the set-up too.
  const slow = estimate(anEstimateRequest({ labour: [{ ...labour[0]!, factor: 2 }] }));
  expect(Number(slow.steps.find(({ key }) => key === 'labour.minutes')?.value)).toBeCloseTo(2 * minutes, 9);
});

// Each doubling takes L of the time a piece: by hand 1, 0.8, 0.8^log₂3, 0.64 for L = 0.8 (0.7021 is in every table of that curve).
test('runFactor() sums the unit curve', () => {
  expect(runFactor(1).toNumber()).toBe(1);
  expect(runFactor(2, 0.8).toNumber()).toBeCloseTo(1.8, 12);
  expect(runFactor(4, 0.8).toNumber()).toBeCloseTo(1 + 0.8 + 0.7021 + 0.64, 4);
  expect(runFactor(500, 1).toNumber()).toBe(500);
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 51, max: 100 }), (pieces, percent) => {
      const sum = Array.from({ length: pieces }, (_, k) => (k + 1) ** Math.log2(percent / 100)).reduce((a, b) => a + b);
      expect(runFactor(pieces, percent / 100).toNumber() / sum).toBeCloseTo(1, 10);
    }),
  );
});

test.each([
  [0, 0.85, 'run.pieces must be a whole number from 1 to 500; it is 0'],
  [1.5, 0.85, 'run.pieces must be a whole number from 1 to 500; it is 1.5'],
  [12, 0.5, 'run.learningFraction must be above 0.5, at most 1; it is 0.5'],
  [12, Number.NaN, 'run.learningFraction must be above 0.5, at most 1; it is NaN'],
])('runFactor(%d, %d) is refused', (pieces, learningFraction, message) => {
  expect(() => runFactor(pieces, learningFraction)).toThrow(message);
});

// (25.00 + 11.00)/8 + 0.65 + 1.20 = 6.35.
test('packetShare() divides fee and post by the articles', () => {
  const packet = { fee: '25.00', post: '11.00', articles: 8, perArticle: '0.65', partMarks: '1.20' };
  expect(packetShare(packet).toFixed(2)).toBe('6.35');
  expect(packetShare({ fee: '25.00', post: '11.00', articles: 1 }).toFixed(2)).toBe('36.00');
  expect(() => packetShare({ ...packet, articles: 0 })).toThrow('packet.articles must be a whole number from 1; it is 0');
  expect(() => packetShare({ ...packet, fee: '-1' })).toThrow('packet.fee must be a decimal');
});

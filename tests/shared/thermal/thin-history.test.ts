import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { thinHistory } from '../../../shared/thermal/thin-history.ts';

const everySecond = (temperaturesC: readonly number[]) => ({
  timesS: Float64Array.from(temperaturesC, (_, i) => i),
  temperaturesC: Float64Array.from(temperaturesC),
});

/** The straight lines through the moments kept, at second t. */
function lineAt({ timesS, temperaturesC }: { timesS: number[]; temperaturesC: number[] }, t: number): number {
  const after = Math.max(
    1,
    timesS.findIndex((s) => s >= t),
  );
  const share = (t - timesS[after - 1]!) / (timesS[after]! - timesS[after - 1]!);
  return temperaturesC[after - 1]! + share * (temperaturesC[after]! - temperaturesC[after - 1]!);
}

test('thinHistory() keeps the ends of a straight rise and nothing else, and both sides of a corner', () => {
  expect(thinHistory(everySecond([20, 40, 60, 80, 100]))).toEqual({ timesS: [0, 4], temperaturesC: [20, 100] });
  expect(thinHistory(everySecond([20, 120, 220, 120, 20]))).toEqual({ timesS: [0, 2, 4], temperaturesC: [20, 220, 20] });
});

test('thinHistory() stays within 1 K wherever it looks', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 20, max: 900, noNaN: true }), { minLength: 2, maxLength: 290 }), (temperaturesC) => {
      const thin = thinHistory(everySecond(temperaturesC));
      temperaturesC.forEach((t, s) => expect(Math.abs(lineAt(thin, s) - t)).toBeLessThanOrEqual(1 + 1e-9));
    }),
  );
});

test('thinHistory() stops at 300 moments', () => {
  const { timesS } = thinHistory(everySecond(Array.from({ length: 1000 }, (_, i) => (i % 2) * 50)));
  expect(timesS).toHaveLength(300);
});

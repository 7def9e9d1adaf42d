import { expect, test } from 'vitest';
import { EngineInputError } from '../../../shared/engine-input-error.ts';
import { suggestedRise, type HeatedAgain } from '../../../shared/learning/suggested-rise.ts';
import { jstat } from '../../support/jstat.ts';

/** So many joints that were predicted to run by so much, the first of them with a remelt. */
const joints = (byK: number, count: number, remelts = 0): HeatedAgain[] =>
  Array.from({ length: count }, (_, index) => ({ runMarginK: -byK, remelted: index < remelts }));

// Rule of three (Hanley and Lippman-Hand, JAMA 249 (1983) 1743): none in n is under 3/n, so none of 30 is under one in ten.
test('suggestedRise() takes thirty joints without a remelt for each step, and no fewer', () => {
  expect(suggestedRise(joints(3, 29), 0)).toMatchObject({ supportedK: 0, suggestedK: null });
  const enough = suggestedRise(joints(3, 30), 0);
  expect(enough).toEqual({
    steps: [{ fromK: 0, toK: 5, joints: 30, remelts: 0, least: 0, most: 0.1, supported: true }],
    supportedK: 5,
    suggestedK: 5,
    says: 'of joints predicted to run by up to 5 K none of 30 ran: the record supports a rise of 5 K',
  });
  expect(suggestedRise([...joints(3, 30), ...joints(7, 29)], 0).suggestedK).toBe(5);
  expect(suggestedRise([...joints(3, 30), ...joints(7, 30)], 0).suggestedK).toBe(10);
});

test('the joints of one step never speak for the next', () => {
  // A hundred that were predicted to run by 12 K say nothing of the steps under them.
  expect(suggestedRise(joints(12, 100), 0)).toMatchObject({ supportedK: 0, suggestedK: null });
  expect(suggestedRise([...joints(2, 200), ...joints(12, 100)], 0)).toMatchObject({ supportedK: 5, suggestedK: 5 });
});

test('suggestedRise() never goes over 15 K, and counts a joint at a border once', () => {
  const everywhere = [2, 7, 12, 17, 30].flatMap((byK) => joints(byK, 50));
  const found = suggestedRise(everywhere, 0);
  expect(found.supportedK).toBe(15);
  expect(found.steps).toHaveLength(3);
  // Over the border by nothing is within: 5 K are of 0 to 5, 0 K are predicted to hold.
  const border = suggestedRise([...joints(0, 10), ...joints(5, 10), ...joints(15, 10)], 0);
  expect(border.steps.map(({ fromK, joints: count }) => [fromK, count])).toEqual([
    [0, 10],
    [10, 10],
  ]);
});

// The least number of joints, one of which ran, of which Clopper and Pearson's upper limit is at most a tenth: by another library.
test('with one remelt it takes as many joints as the beta quantile says', () => {
  const atLeast = Array.from({ length: 100 }, (_, n) => n + 2).find((n) => jstat.beta.inv(0.975, 2, n - 1) <= 0.1)!;
  expect(atLeast).toBeGreaterThan(40);
  expect(suggestedRise(joints(3, atLeast - 1, 1), 0).suggestedK).toBeNull();
  expect(suggestedRise(joints(3, atLeast, 1), 0).suggestedK).toBe(5);
});

test('a rise in use is left where the record is silent, borne out, or spoken against', () => {
  expect(suggestedRise([], 10)).toEqual({
    steps: [],
    supportedK: 0,
    suggestedK: null,
    says: 'no joint that was predicted to run has been heated: that supports no rise of 10 K, nor speaks against it',
  });
  expect(suggestedRise(joints(3, 40), 5)).toMatchObject({ suggestedK: null, says: 'the record bears out the 5 K in use' });
  // 12 of 30 ran: at least a fifth of all do.
  const against = suggestedRise([...joints(3, 40), ...joints(8, 30, 12)], 10);
  expect(against).toMatchObject({ supportedK: 5, suggestedK: 5 });
  expect(against.says).toBe('of joints predicted to run by 5 to 10 K 12 of 30 ran: the record speaks against the 10 K in use');
  // What no plan relies on contradicts nothing.
  expect(suggestedRise([...joints(3, 40), ...joints(8, 30, 12)], 5).suggestedK).toBeNull();
});

test('numbers that are none are refused', () => {
  expect(() => suggestedRise([], -1)).toThrow(EngineInputError);
  expect(() => suggestedRise([], Number.NaN)).toThrow(EngineInputError);
  expect(() => suggestedRise([{ runMarginK: Number.NaN, remelted: false }], 0)).toThrow(EngineInputError);
});

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { runToEnd } from '../../../shared/run-to-end.ts';
import { findConflict } from '../../../shared/sequencing/find-conflict.ts';
import { orderRing } from '../../../shared/sequencing/order-ring.ts';
import { canBeMade } from '../../../shared/sequencing/trial.ts';
import { surrogateProblem, type SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { surrogatePosable } from '../../support/surrogate-rules.ts';

// tests/reference/sequence-cases.json: conflicts found by other programs, most of them proven to be of the fewest joints.
interface Case {
  piece: SurrogatePiece;
  expected: { conflict: { kind: 'cycle' | 'conflict'; joints: string[]; constraints: unknown[] } };
}

const file = new URL('../../reference/sequence-cases.json', import.meta.url);
const { infeasible } = JSON.parse(readFileSync(file, 'utf8')) as { infeasible: Case[] };
const cases = infeasible.map((each) => [each.piece.id, each] as const);
const purseOf = () => ({ workUnits: 5_000_000 });

describe('a conflict', () => {
  test.each(cases.filter(([, { expected }]) => expected.conflict.kind === 'cycle'))(
    'of %s is a ring of no more joints, each before the next',
    (_, { piece, expected }) => {
      const problem = surrogateProblem(piece);
      const ring = orderRing(problem)!;
      expect(ring.joints.length).toBeLessThanOrEqual(expected.conflict.joints.length);
      expect(ring.throughGroup).toBe(false);
      for (const [i, j] of ring.joints.entries()) expect(problem.after[j]).toContain(ring.joints[(i + 1) % ring.joints.length]);
    },
  );

  test.each(cases)('of %s is no larger than the one known, and holds nothing too much', (_, { piece, expected }) => {
    const purse = purseOf();
    const posable = surrogatePosable(piece, purse);
    const { joints, rules } = runToEnd(findConflict(posable, purse))!;
    expect(joints.length).toBeLessThanOrEqual(expected.conflict.joints.length);
    if (expected.conflict.kind === 'conflict') expect(rules.length).toBeLessThanOrEqual(expected.conflict.constraints.length);

    // Asked anew, with runs of its own: without any other rule the joints cannot be made, without any one joint or rule they can.
    const again = purseOf();
    const whole = surrogatePosable(piece, again);
    const others = whole.rules.filter((rule) => !rules.includes(rule));
    const isMade = (letGo: readonly string[], only: readonly number[]) =>
      runToEnd(canBeMade(whole.pose(new Set(letGo)), again, only));
    expect(isMade(others, joints)).toBe(false);
    for (const rule of rules) expect(isMade([...others, rule], joints), rule).toBe(true);
    for (const joint of joints) {
      const rest = joints.filter((other) => other !== joint);
      expect(isMade(others, rest), `without ${joint}`).toBe(true);
    }
  });
});

test('a ring through joints that share a heat is told as one', () => {
  const { piece } = infeasible.find(({ expected }) => expected.conflict.kind === 'cycle')!;
  const [a, b, c] = piece.joints.map(({ id }) => id) as [string, string, string];
  const ring = orderRing(surrogateProblem({ ...piece, before: [[a, b]], same: [[b, a]] }));
  expect(ring!.throughGroup).toBe(true);
  expect(orderRing(surrogateProblem({ ...piece, before: [[a, b]], same: [[b, c]] }))).toBeNull();
});

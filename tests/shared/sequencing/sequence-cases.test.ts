import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { solveCase } from '../../../src/cases/sequence-cases.ts';
import type { SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';

// tests/reference/sequence-cases.json: optimal values proven by two or three programs written apart from this one.
interface Case {
  piece: SurrogatePiece;
  expected: { feasible: boolean; [level: string]: unknown };
}

const file = new URL('../../reference/sequence-cases.json', import.meta.url);
interface Bounded {
  piece: SurrogatePiece;
  best: { marginLevel: number; protections: number; heats: number; grades: number; preference: number; timeS: number };
}
const { optimal, infeasible, bounded } = JSON.parse(readFileSync(file, 'utf8')) as {
  optimal: Case[];
  infeasible: Case[];
  bounded: Bounded[];
};
const WORK_UNITS = 5_000_000;
/** For pieces too large to be proven. */
const FEW_UNITS = 400_000;

describe('the search', () => {
  test('has cases of every size up to twelve joints', () => {
    expect(optimal.length).toBe(25);
    expect(infeasible.length).toBe(7);
  });

  test.each(optimal.map((each) => [each.piece.id, each] as const))('proves every level of %s', (_, { piece, expected }) => {
    expect(solveCase(piece, WORK_UNITS)).toEqual({ id: piece.id, proven: true, ...expected });
  });

  test('does not claim to have proven what it has not', () => {
    const { piece, expected } = optimal.find((each) => each.piece.id === 'star-12-31')!;
    const line = solveCase(piece, 200_000);
    expect(line).toMatchObject({ feasible: true, proven: false });
    expect(line.marginLevel).toBeLessThanOrEqual(expected['marginLevel'] as number);
  });

  test.each(infeasible.map((each) => [each.piece.id, each] as const))('proves that %s cannot be made', (_, { piece }) => {
    expect(solveCase(piece, WORK_UNITS)).toMatchObject({ feasible: false, proven: true });
  });

  test.each(bounded.map((each) => [each.piece.id, each] as const))(
    'plans %s at least as well as is known',
    (_, { piece, best }) => {
      const { marginLevel, protections, heats, distinctGrades, preference, timeS } = solveCase(piece, FEW_UNITS);
      const found = [-marginLevel!, protections, heats, distinctGrades, preference, timeS];
      const known = [-best.marginLevel, best.protections, best.heats, best.grades, best.preference, best.timeS];
      const at = found.findIndex((level, i) => level !== known[i]);
      expect(at === -1 || found[at]! < known[at]!, `${found.join()} against ${known.join()}`).toBe(true);
    },
  );
});

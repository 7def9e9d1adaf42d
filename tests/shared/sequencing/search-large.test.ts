import { expect, test } from 'vitest';
import { surrogateOracle, surrogateProblem, type SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { solveCase } from '../../../src/cases/sequence-cases.ts';
import { runToEnd } from '../../../shared/run-to-end.ts';
import { searchLevels, type LevelsFound } from '../../../shared/sequencing/search-levels.ts';
import { randomPiece } from '../../support/random-piece.ts';
import { replayPlan } from '../../support/replay-plan.ts';
import { sequenceProgram } from '../../support/sequence-milp.ts';
import { PIECE_KINDS, sizedPiece } from '../../support/sized-piece.ts';
import { byHighs } from '../../support/solve-program.ts';

const limits = { workUnits: 300_000, stopAt: 'time', preferHigherGrades: false } as const;
const search = (piece: SurrogatePiece): LevelsFound =>
  runToEnd(searchLevels(surrogateProblem(piece), surrogateOracle(piece), limits));
const valueOf = ({ proof }: LevelsFound, level: string): number => proof.find((each) => each.level === level)!.value!;

/** The protections that what was found takes at least. */
function replay(piece: SurrogatePiece, found: LevelsFound): number {
  const { joints, grades } = surrogateProblem(piece);
  const heats = found.heats!.map(({ targets, grade, technique }) => ({
    joints: targets.map((j) => joints[j]!.id),
    grade: grades[grade]!.id,
    protections: technique.length,
  }));
  return replayPlan(piece, heats, valueOf(found, 'margin'));
}

// Twenty-four unlike prongs have no plan that is soon found.
const sizes = PIECE_KINDS.flatMap((kind) => (kind === 'star' ? [10, 16] : [10, 24]).map((count) => [kind, count] as const));

test.each(sizes)('a plan of a %s of %d joints makes every joint once, keeps every rule and its margin', (kind, count) => {
  for (const seed of [1, 2, 3]) {
    const piece = sizedPiece(kind, count, seed);
    const found = search(piece);
    expect(found.heats, piece.id).not.toBeNull();
    expect(replay(piece, found), piece.id).toBe(valueOf(found, 'protections'));
    for (const { level, value, bound } of found.proof) {
      if (level === 'margin') expect(bound!).toBeGreaterThanOrEqual(value!);
      else expect(bound!, `${piece.id} ${level}`).toBeLessThanOrEqual(value!);
    }
  }
});

test('eighty joints of every kind but unlike prongs have a plan that makes each once, in an order that keeps the rules', () => {
  for (const kind of ['chain', 'tree', 'ring', 'prongs', 'mixed'] as const) {
    const piece = sizedPiece(kind, 80, 3);
    const problem = surrogateProblem(piece);
    const order = search(piece).heats!.flatMap(({ targets }) => targets);
    expect(order.toSorted((a, b) => a - b)).toEqual([...problem.joints.keys()]);
    for (const [first, then] of problem.after.flatMap((later, j) => later.map((k) => [j, k] as const))) {
      expect(order.indexOf(first)).toBeLessThan(order.indexOf(then));
    }
  }
});

test('the fewest protections agree with an integer program, one joint a heat', () => {
  let protectedPieces = 0;
  for (const kind of ['chain', 'tree', 'star'] as const) {
    for (const count of [4, 5, 6, 7]) {
      // What a program of more unlike prongs takes is for a bench.
      if (kind === 'star' && count > 5) continue;
      for (const seed of [1, 2, 3]) {
        const levelK = 15 * (seed - 1);
        const whole = { ...sizedPiece(kind, count, seed), maxJointsPerHeat: 1, margin: { min: levelK, cap: levelK, step: 5 } };
        const piece = seed === 3 ? whole : { ...whole, grades: whole.grades.filter(({ id }) => ['H', 'M'].includes(id)) };
        const { feasible, protections, proven } = solveCase(piece, 3_000_000);
        expect(proven).toBe(true);
        expect(feasible ? protections : null, `${piece.id} ${levelK}`).toBe(byHighs(sequenceProgram(piece, levelK), 60));
        if (feasible && protections! > 0) protectedPieces++;
      }
    }
  }
  expect(protectedPieces).toBeGreaterThan(5);
});

test('what small sets of joints cost at least changes no answer, only how soon it is found', () => {
  const random = Array.from({ length: 12 }, (_, i) => randomPiece(900 + i, 7));
  for (const piece of [...random, ...PIECE_KINDS.map((kind) => sizedPiece(kind, 7, 3)), sizedPiece('tree', 8, 3)]) {
    const unaided = { ...surrogateOracle(piece), isMonotone: false };
    const all = { ...limits, workUnits: 3_000_000 };
    const [aided, alone] = [surrogateOracle(piece), unaided].map((oracle) =>
      runToEnd(searchLevels(surrogateProblem(piece), oracle, all)),
    );
    expect(aided!.outcome, piece.id).toBe(alone!.outcome);
    expect(
      aided!.proof.map(({ value }) => value),
      piece.id,
    ).toEqual(alone!.proof.map(({ value }) => value));
  }
});

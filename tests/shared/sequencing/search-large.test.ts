import { expect, test } from 'vitest';
import { surrogateOracle, surrogateProblem, type SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { solveCase } from '../../../src/cases/sequence-cases.ts';
import { runToEnd } from '../../../shared/run-to-end.ts';
import { searchLevels, type LevelsFound } from '../../../shared/sequencing/search-levels.ts';
import { fewestProtections, mayHave, mayShareHeat } from '../../support/brute-force-sequence.ts';
import { sequenceProgram } from '../../support/sequence-milp.ts';
import { PIECE_KINDS, sizedPiece } from '../../support/sized-piece.ts';
import { byHighs } from '../../support/solve-program.ts';

const limits = { workUnits: 300_000, stopAt: 'time', preferHigherGrades: false } as const;
const search = (piece: SurrogatePiece): LevelsFound =>
  runToEnd(searchLevels(surrogateProblem(piece), surrogateOracle(piece), limits));
const valueOf = ({ proof }: LevelsFound, level: string): number => proof.find((each) => each.level === level)!.value!;

/** Goes through a plan heat by heat with the law of the cases, and answers the protections it takes at least. */
function replay(piece: SurrogatePiece, { heats, ...found }: LevelsFound): number {
  const problem = surrogateProblem(piece);
  const levelK = valueOf({ heats, ...found }, 'margin');
  const made = new Map<string, number>(
    piece.joints.flatMap(({ id, doneSolidus }) => (doneSolidus === undefined ? [] : [[id, doneSolidus] as const])),
  );
  let protections = 0;
  for (const { targets, grade: g, technique } of heats!) {
    const grade = piece.grades.find(({ id }) => id === problem.grades[g]!.id)!;
    const joints = targets.map((j) => piece.joints.find(({ id }) => id === problem.joints[j]!.id)!);
    expect(joints.length).toBeLessThanOrEqual(piece.maxJointsPerHeat);
    expect(mayShareHeat(piece, joints)).toBe(true);
    for (const joint of joints) {
      expect(mayHave(piece, joint, grade)).toBe(true);
      expect(made.has(joint.id)).toBe(false);
      expect(piece.before.some(([first, then]) => first === joint.id && made.has(then))).toBe(false);
    }
    const fewest = fewestProtections(piece, { made }, joints, grade, levelK);
    expect(technique.length).toBeGreaterThanOrEqual(fewest);
    protections += fewest;
    for (const { id } of joints) made.set(id, grade.solidus);
  }
  expect(made.size).toBe(piece.joints.length);
  return protections;
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

test('one more protection that may be used never makes the best plan worse', () => {
  for (const kind of PIECE_KINDS) {
    const piece = sizedPiece(kind, 6, 3);
    const { shield, ...fewer } = piece.protections;
    const [more, less] = [solveCase(piece, 3_000_000), solveCase({ ...piece, protections: fewer }, 3_000_000)];
    expect(shield).toBeDefined();
    if (!less.feasible) continue;
    expect(more.marginLevel!).toBeGreaterThanOrEqual(less.marginLevel!);
    if (more.marginLevel === less.marginLevel) expect(more.protections!).toBeLessThanOrEqual(less.protections!);
  }
});

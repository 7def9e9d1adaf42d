import { expect, test } from 'vitest';
import { runToEnd } from '../../../shared/run-to-end.ts';
import { searchLevels } from '../../../shared/sequencing/search-levels.ts';
import { solveCase } from '../../../src/cases/sequence-cases.ts';
import { surrogateOracle, surrogateProblem, type SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { bruteForce } from '../../support/brute-force-sequence.ts';
import { randomFrom, randomPiece } from '../../support/random-piece.ts';
import { replayPlan } from '../../support/replay-plan.ts';
import { PIECE_KINDS, sizedPiece } from '../../support/sized-piece.ts';

const WORK_UNITS = 5_000_000;

function objectiveOf(piece: SurrogatePiece, workUnits = WORK_UNITS): number[] | null {
  const { feasible, marginLevel, protections, heats, distinctGrades, preference, timeS } = solveCase(piece, workUnits);
  return feasible ? [marginLevel!, protections!, heats!, distinctGrades!, preference!, timeS!] : null;
}

/** Negative when a is the better plan; no plan is the worst. The margin level counts upward, all else downward. */
function compare(a: number[] | null, b: number[] | null): number {
  if (!a || !b) return Number(!a) - Number(!b);
  const i = a.findIndex((value, level) => value !== b[level]);
  return i < 0 ? 0 : (a[i]! - b[i]!) * (i === 0 ? -1 : 1);
}

const seeds = (from: number, count: number): number[] => Array.from({ length: count }, (_, i) => from + i);

test('the search agrees with every plan tried one by one, on three joints', () => {
  const pieces = seeds(1000, 300).map((seed) => randomPiece(seed, 3));
  const feasible = pieces.filter((piece) => {
    const best = bruteForce(piece);
    expect(objectiveOf(piece), piece.id).toEqual(best);
    return best !== null;
  });
  expect(feasible.length).toBeGreaterThan(150);
});

test('the search agrees with every plan tried one by one, on four joints', () => {
  for (const seed of seeds(5000, 120)) {
    const piece = randomPiece(seed, 4);
    expect(objectiveOf(piece), piece.id).toEqual(bruteForce(piece));
  }
});

test('the search agrees with every plan tried one by one, on five joints', () => {
  for (const seed of seeds(7000, 30)) {
    const piece = randomPiece(seed, 5);
    expect(objectiveOf(piece), piece.id).toEqual(bruteForce(piece));
  }
});

test('a plan makes every joint once, in heats that break no rule and keep its margin', () => {
  let planned = 0;
  for (const seed of seeds(100, 120)) {
    const piece = randomPiece(seed, 6);
    const problem = surrogateProblem(piece);
    // Whether its allowance sufficed or not, what it answers is a plan.
    for (const workUnits of [2000, WORK_UNITS]) {
      const limits = { workUnits, stopAt: 'time', preferHigherGrades: false } as const;
      const { heats, proof } = runToEnd(searchLevels(problem, surrogateOracle(piece), limits));
      if (!heats) continue;
      planned++;
      const [margin, protections] = proof.map(({ value }) => value!);
      const named = heats.map(({ targets, grade, technique }) => ({
        joints: targets.map((j) => problem.joints[j]!.id),
        grade: problem.grades[grade]!.id,
        protections: technique.length,
      }));
      expect(replayPlan(piece, named, margin!), piece.id).toBe(protections);
    }
  }
  expect(planned).toBeGreaterThan(100);
});

/** The same piece with one thing more that is forbidden. */
const ruled: Record<string, (piece: SurrogatePiece) => SurrogatePiece> = {
  'an order': (piece) => ({ ...piece, before: [...piece.before, ['J1', 'J3']] }),
  'two joints kept apart': (piece) => ({ ...piece, notSame: [...piece.notSame, ['J0', 'J2']] }),
  'two joints in one heat': (piece) => ({ ...piece, same: [...piece.same, ['J0', 'J1']] }),
  'one joint a heat': (piece) => ({ ...piece, maxJointsPerHeat: 1 }),
  'a least spread': (piece) => ({ ...piece, maxSpread: Math.min(piece.maxSpread ?? Infinity, 12) }),
  'a least fineness': (piece) => ({ ...piece, minFineness: Math.max(piece.minFineness, 700) }),
  'a solder ruled out for a joint': (piece) => ({
    ...piece,
    joints: piece.joints.map((joint, i) => (i === 2 ? { ...joint, excluded: [...(joint.excluded ?? []), 'H'] } : joint)),
  }),
  'a part that stands less': (piece) => ({
    ...piece,
    parts: piece.parts.map((part, i) => (i === 1 ? { ...part, tMax: 500 } : part)),
  }),
  'little of a solder': (piece) => ({ ...piece, stock: { ...piece.stock, H: Math.min(piece.stock['H'] ?? Infinity, 8) } }),
};

test.each(Object.entries(ruled))('one more rule never makes the best plan better: %s', (_, withRule) => {
  for (const seed of seeds(200, 40)) {
    const piece = randomPiece(seed, 5);
    expect(compare(objectiveOf(piece), objectiveOf(withRule(piece))), piece.id).toBeLessThanOrEqual(0);
  }
});

test.each(['sink', 'shield', 'antiflow', 'flame'] as const)('one more protection never makes the best plan worse: %s', (kind) => {
  const all = sizedPiece('star', 4, 1).protections;
  for (const seed of seeds(600, 50)) {
    const piece = randomPiece(seed, 5);
    const { [kind]: _none, ...others } = piece.protections;
    const more = { ...piece, protections: { ...others, [kind]: all[kind] } };
    expect(compare(objectiveOf(more), objectiveOf({ ...piece, protections: others })), piece.id).toBeLessThanOrEqual(0);
  }
});

test('one more solder never makes the best plan worse', () => {
  for (const seed of seeds(300, 60)) {
    const piece = randomPiece(seed, 5);
    const more = { ...piece, grades: [...piece.grades, { id: 'S', solidus: 705, liquidus: 725, fineness: 900, rank: 2.5 }] };
    expect(compare(objectiveOf(more), objectiveOf(piece)), piece.id).toBeLessThanOrEqual(0);
  }
});

test('neither the order nor the names of what is asked change the answer', () => {
  for (const seed of seeds(400, 60)) {
    const piece = randomPiece(seed, 5);
    const random = randomFrom(seed);
    const keys = new Map<unknown, number>();
    const shuffled = <T>(items: readonly T[]): T[] => {
      for (const item of items) keys.set(item, random());
      return [...items].sort((a, b) => keys.get(a)! - keys.get(b)!);
    };
    const other = { ...piece, parts: shuffled(piece.parts), joints: shuffled(piece.joints), grades: shuffled(piece.grades) };
    expect(solveCase(other, WORK_UNITS), piece.id).toEqual(solveCase(piece, WORK_UNITS));
    const renamed = JSON.parse(
      JSON.stringify(piece).replaceAll(/"J(\d)"/g, (_, digit: string) => `"K${9 - Number(digit)}"`),
    ) as SurrogatePiece;
    expect(objectiveOf(renamed), piece.id).toEqual(objectiveOf(piece));
  }
});

test('a larger allowance never gives a worse plan', () => {
  for (const seed of seeds(500, 25)) {
    const piece = randomPiece(seed, 7);
    const plans = [200, 2000, 20_000, 200_000, WORK_UNITS].map((workUnits) => objectiveOf(piece, workUnits));
    for (let i = 1; i < plans.length; i++) expect(compare(plans[i]!, plans[i - 1]!), `${piece.id} ${i}`).toBeLessThanOrEqual(0);
  }
});

test.each(PIECE_KINDS)('nor does it on a piece of twelve that is a %s', (kind) => {
  const piece = sizedPiece(kind, 12, 3);
  const plans = [1000, 10_000, 50_000, 200_000].map((workUnits) => objectiveOf(piece, workUnits));
  for (let i = 1; i < plans.length; i++) expect(compare(plans[i]!, plans[i - 1]!), `${piece.id} ${i}`).toBeLessThanOrEqual(0);
});

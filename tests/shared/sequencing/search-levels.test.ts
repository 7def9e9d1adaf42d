import { expect, test } from 'vitest';
import { solveCase } from '../../../src/cases/sequence-cases.ts';
import type { SurrogatePiece } from '../../../src/cases/surrogate-piece.ts';
import { bruteForce } from '../../support/brute-force-sequence.ts';
import { randomFrom, randomPiece } from '../../support/random-piece.ts';

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

test('one more rule never makes the best plan better', () => {
  for (const seed of seeds(200, 60)) {
    const piece = randomPiece(seed, 5);
    const ruled = { ...piece, before: [...piece.before, ['J1', 'J3'] as [string, string]] };
    const apart = { ...piece, notSame: [...piece.notSame, ['J0', 'J2'] as [string, string]] };
    const best = objectiveOf(piece);
    expect(compare(best, objectiveOf(ruled)), piece.id).toBeLessThanOrEqual(0);
    expect(compare(best, objectiveOf(apart)), piece.id).toBeLessThanOrEqual(0);
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

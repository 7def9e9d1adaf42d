/** Goes through a plan heat by heat with the law of the sequencing cases. Shares no code with the search. */

import { expect } from 'vitest';
import type { SurrogatePiece } from '../../src/cases/surrogate-piece.ts';
import { fewestProtections, hangTogether, mayHave, mayShareHeat } from './brute-force-sequence.ts';

export interface ReplayedHeat {
  joints: readonly string[];
  grade: string;
  /** Of all kinds. */
  protections: number;
}

/**
 * Expects that every open joint is made once, that no heat breaks a rule and that each is laid with as many protections as the margin
 * level takes at least.
 *
 * @returns the protections that the plan takes at least
 */
export function replayPlan(piece: SurrogatePiece, heats: readonly ReplayedHeat[], levelK: number): number {
  const solidusOf = (id: string): number => piece.grades.find((grade) => grade.id === id)!.solidus;
  const made = new Map(
    piece.joints.flatMap(({ id, done, doneSolidus }) =>
      done === undefined && doneSolidus === undefined ? [] : [[id, doneSolidus ?? solidusOf(done!)] as const],
    ),
  );
  const usedMg = new Map<string, number>();
  let protections = 0;
  for (const heat of heats) {
    const grade = piece.grades.find(({ id }) => id === heat.grade)!;
    const joints = heat.joints.map((id) => piece.joints.find((joint) => joint.id === id)!);
    expect(joints.length).toBeLessThanOrEqual(piece.maxJointsPerHeat);
    expect(mayShareHeat(piece, joints), piece.id).toBe(true);
    expect(hangTogether(piece, { made }, joints), piece.id).not.toBeNull();
    for (const joint of joints) {
      expect(mayHave(piece, joint, grade)).toBe(true);
      expect(made.has(joint.id)).toBe(false);
      expect(piece.before.some(([first, then]) => first === joint.id && made.has(then))).toBe(false);
      usedMg.set(grade.id, (usedMg.get(grade.id) ?? 0) + joint.mass);
    }
    const fewest = fewestProtections(piece, { made }, joints, grade, levelK);
    expect(heat.protections).toBeGreaterThanOrEqual(fewest);
    protections += fewest;
    for (const { id } of joints) made.set(id, grade.solidus);
  }
  expect(made.size).toBe(piece.joints.length);
  for (const [grade, mg] of usedMg) expect(mg).toBeLessThanOrEqual((piece.stock[grade] ?? Infinity) + 1e-9);
  return protections;
}

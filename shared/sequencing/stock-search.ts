/** The best plan that uses no more of any solder than there is. */

import type { PlannedHeat } from './planned-heats.ts';
import { GRAM_TOLERANCE, type SequenceProblem } from './sequence-problem.ts';

export interface Found {
  cost: number;
  heats: PlannedHeat[];
}

/** The best plan with the solders that each joint is left, cheaper than the bound; null if there is none. */
export type Solve = (masks: readonly number[], bound: number) => Generator<void, Found | null>;

/** Joints made with the first solder that runs short, or null when every solder suffices. */
function shortOf(problem: SequenceProblem, heats: readonly PlannedHeat[]): { grade: number; joints: number[] } | null {
  for (const [grade, { availableG }] of problem.grades.entries()) {
    const joints = heats.filter((heat) => heat.grade === grade).flatMap(({ targets }) => targets);
    const needG = joints.reduce((sum, j) => sum + problem.joints[j]!.needG[grade]!, 0);
    if (needG > availableG + GRAM_TOLERANCE) return { grade, joints };
  }
  return null;
}

export const isWithinStock = (problem: SequenceProblem, heats: readonly PlannedHeat[]): boolean =>
  shortOf(problem, heats) === null;

/**
 * Solder is shared by all sections, so it is left out of the sections' own search. A plan that takes too much of a solder is split
 * into cases, one for each joint that would be the first to give it up: together they cover every plan within the stock, and each
 * case's optimum bounds it from below.
 */
export function* bestWithinStock(
  problem: SequenceProblem,
  solve: Solve,
  masks: readonly number[],
  bound: number,
): Generator<void, Found | null> {
  const plan = yield* solve(masks, bound);
  if (!plan) return null;
  const short = shortOf(problem, plan.heats);
  if (!short) return plan;
  const bit = 1 << short.grade;
  const held = [...masks];
  let best: Found | null = null;
  let least = bound;
  for (const j of short.joints) {
    const given = [...held];
    given[j]! &= ~bit;
    held[j] = bit;
    if (given[j] === 0) continue;
    const found = yield* bestWithinStock(problem, solve, given, least);
    if (!found) continue;
    best = found;
    least = found.cost;
    if (least === plan.cost) break;
  }
  return best;
}

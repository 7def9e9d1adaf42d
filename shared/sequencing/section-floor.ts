/** What a section costs at least, whatever the order of its heats. */

import type { Weights, SectionQuestion } from './section-question.ts';
import type { SearchSpace } from './heat-table.ts';
import type { JointSet } from './joint-set.ts';
import { NEVER } from './protection-caps.ts';
import type { SequenceProblem } from './sequence-problem.ts';
import type { Windows } from './windows.ts';

/** No plan of a group under these demands costs less. */
export type Floor = (group: JointSet, rows: Uint8Array, isSimple?: boolean) => number;

/** What one protection costs. */
export const priceOf = ({ heatTime }: SequenceProblem, weights: Weights): number =>
  weights.protection + weights.second * heatTime.protectionS;

/** @param windows what small sets of joints cost at least; null where that says nothing */
export function floorOf({ problem, sections }: SearchSpace, { weights }: SectionQuestion, windows: Windows | null = null): Floor {
  const grades = problem.grades.length;
  const ranks = problem.grades.map(({ rank }) => rank * weights.rank);
  const price = priceOf(problem, weights);
  const partsOf = isForest(problem) ? fewestParts(problem) : null;
  const { heatS, jointS, partS } = problem.heatTime;
  const ofJoint = (rows: Uint8Array, j: number): number => {
    let least = Infinity;
    for (let g = 0; g < grades; g++) {
      const row = rows[j * grades + g]!;
      if (row !== NEVER) least = Math.min(least, row * price + ranks[g]!);
    }
    return least;
  };
  const ofHeats = (group: JointSet): number => {
    const heats = Math.ceil(group.joints.length / problem.maxJointsPerHeat);
    if (weights.second === 0) return weights.heat * heats;
    const parts = partsOf
      ? sections.components(group).reduce((sum, { joints }) => sum + partsOf[joints.joints.length]!, 0)
      : heats - 1 + Math.max(...sections.components(group).map((component) => component.parts.length));
    return weights.heat * heats + weights.second * (heats * heatS + group.joints.length * jointS + parts * partS);
  };
  const prices = { price, ranks };
  return (group, rows, isSimple = false) => {
    const cost = ofHeats(group);
    if (windows && !isSimple) return cost + windows.least(group.joints, rows, prices);
    return cost + group.joints.reduce((sum, j) => sum + ofJoint(rows, j), 0);
  };
}

/** Whether no joint closes a ring. */
function isForest({ joints, made, contacts = [] }: SequenceProblem): boolean {
  const leader = new Map<string, string>();
  const find = (id: string): string => {
    let root = id;
    while (leader.has(root)) root = leader.get(root)!;
    return root;
  };
  for (const [a, b] of [...contacts, ...made.map(({ parts }) => parts)]) if (find(a) !== find(b)) leader.set(find(a), find(b));
  return joints.every(({ parts: [a, b] }) => {
    if (find(a) === find(b)) return false;
    leader.set(find(a), find(b));
    return true;
  });
}

/**
 * By number of joints that hang together without a ring: the fewest parts in the fire, summed over the heats that make them. The last
 * heat has all in the fire; taking h joints away leaves at most h + 1 pieces, best of even size.
 */
function fewestParts({ joints, maxJointsPerHeat }: SequenceProblem): number[] {
  const fewest = [0];
  for (let m = 1; m <= joints.length; m++) {
    let best = Infinity;
    for (let h = 1; h <= Math.min(maxJointsPerHeat, m); h++) {
      const left = m - h;
      const small = Math.floor(left / (h + 1));
      const larger = left - small * (h + 1);
      const rest = larger * (fewest[small + 1] ?? 0) + (h + 1 - larger) * fewest[small]!;
      best = Math.min(best, m + 1 + rest);
    }
    fewest.push(best);
  }
  return fewest;
}

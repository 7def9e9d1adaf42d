/** Which joints may be made together in the last heat of a component. */

import { hasJoint, type JointSet } from './joint-set.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** Joints that a joint is combined with where only near ones are tried; fewer where there are many. */
const NEIGHBOURS = 3;
const FEWER_NEIGHBOURS = 1;
const MANY = 40;

/**
 * Sets of joints of one component that the rules let share a heat after which no joint of the group is left: none must come before
 * another of the group, none is kept apart, and those that go together are all there.
 *
 * @param isNear whether several joints are only combined with their neighbours
 */
export function targetSets(problem: SequenceProblem, group: JointSet, component: JointSet, isNear: boolean): number[][] {
  const eligible = component.joints.filter((j) => !problem.after[j]!.some((later) => hasJoint(group, later)));
  const sets = isNear ? nearSets(problem, eligible) : allSets(problem, eligible);
  return sets.filter((targets) =>
    problem.together.every((group) => group.every((j) => targets.includes(j)) || !group.some((j) => targets.includes(j))),
  );
}

function allSets({ apart, maxJointsPerHeat }: SequenceProblem, eligible: readonly number[]): number[][] {
  const sets: number[][] = [];
  const grow = (from: number, targets: readonly number[]): void => {
    if (targets.length > 0) sets.push([...targets]);
    if (targets.length === maxJointsPerHeat) return;
    for (let k = from; k < eligible.length; k++) {
      const j = eligible[k]!;
      if (!targets.some((other) => apart[j]!.includes(other))) grow(k + 1, [...targets, j]);
    }
  };
  grow(0, []);
  return sets;
}

/** Every joint alone, and grown by one of its neighbours after the other. */
function nearSets(problem: SequenceProblem, eligible: readonly number[]): number[][] {
  const { apart, joints, maxJointsPerHeat, together } = problem;
  const byKey = new Map<string, number[]>();
  const add = (targets: readonly number[]): void => {
    const sorted = [...targets].sort((a, b) => a - b);
    byKey.set(sorted.join(), sorted);
  };
  for (const group of together) if (group.every((j) => eligible.includes(j))) add(group);
  const near = eligible.map((j) => {
    const touching = (other: number): boolean => other !== j && joints[other]!.parts.some((id) => joints[j]!.parts.includes(id));
    return eligible.filter(touching).slice(0, eligible.length > MANY ? FEWER_NEIGHBOURS : NEIGHBOURS);
  });
  for (const [i, j] of eligible.entries()) {
    add([j]);
    for (const first of near[i]!) {
      const targets = [j];
      const open = [first, ...near[i]!, ...eligible.slice(i + 1, i + 1 + maxJointsPerHeat)];
      while (open.length > 0 && targets.length < maxJointsPerHeat) {
        const next = open.shift()!;
        if (targets.includes(next) || targets.some((other) => apart[next]!.includes(other))) continue;
        targets.push(next);
        add(targets);
        open.push(...near[eligible.indexOf(next)]!);
      }
    }
  }
  return [...byKey.values()];
}

import { hasJoint } from './joint-set.ts';
import type { PlannedHeat } from './planned-heats.ts';
import { Sections } from './sections.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** By heat, the heats that must come before it: those of its own section, and those the order rules name. */
export function earlierHeats(problem: SequenceProblem, heats: readonly PlannedHeat[]): number[][] {
  const sections = new Sections(problem);
  const made: number[] = [];
  return heats.map(({ targets }, i) => {
    made.push(...targets);
    const fire = sections.componentOf(sections.sets.of(made), targets[0]!).joints;
    const isEarlier = (other: PlannedHeat): boolean =>
      other.targets.some((j) => hasJoint(fire, j) || problem.after[j]!.some((later) => targets.includes(later)));
    return heats.slice(0, i).flatMap((other, k) => (isEarlier(other) ? [k] : []));
  });
}

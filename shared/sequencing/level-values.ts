import type { LevelName } from './levels.ts';
import type { PlannedHeat } from './section-search.ts';
import { Sections } from './sections.ts';
import { countBits, type SequenceProblem } from './sequence-problem.ts';

export const protectionsOf = (heats: readonly PlannedHeat[]): number =>
  heats.reduce((sum, { option }) => sum + option.protections, 0);

/** What the levels of a plan are worth, counted from its heats. */
export function levelValues(problem: SequenceProblem, heats: readonly PlannedHeat[], levelK: number): Record<LevelName, number> {
  const sections = new Sections(problem);
  let made = 0;
  let timeS = 0;
  let preference = 0;
  for (const { targets, option } of heats) {
    made |= targets;
    const component = sections.components(made).find(({ joints }) => (joints & targets) !== 0)!;
    timeS += problem.heatTimeS({ joints: countBits(targets), parts: component.parts.length, protections: option.protections });
    preference += countBits(targets) * problem.grades[option.grade]!.rank;
  }
  return {
    margin: levelK,
    protections: protectionsOf(heats),
    heats: heats.length,
    grades: new Set(heats.map(({ option }) => option.grade)).size,
    preference,
    time: timeS,
  };
}

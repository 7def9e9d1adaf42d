import type { Weights } from './section-question.ts';
import type { SearchSpace } from './heat-table.ts';
import type { LevelName } from './levels.ts';
import { protectionsOf, type PlannedHeat } from './planned-heats.ts';
import { Sections } from './sections.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** What the levels of a plan are worth, counted from its heats. */
export function levelValues(problem: SequenceProblem, heats: readonly PlannedHeat[], levelK: number): Record<LevelName, number> {
  const sections = new Sections(problem);
  const { heatS, jointS, partS, protectionS } = problem.heatTime;
  const made: number[] = [];
  let timeS = 0;
  let preference = 0;
  for (const { targets, grade, technique } of heats) {
    made.push(...targets);
    const component = sections.componentOf(sections.sets.of(made), targets[0]!);
    timeS += heatS + jointS * targets.length + partS * component.parts.length + protectionS * technique.length;
    preference += targets.length * problem.grades[grade]!.rank;
  }
  return {
    margin: levelK,
    protections: protectionsOf(heats),
    heats: heats.length,
    grades: new Set(heats.map(({ grade }) => grade)).size,
    preference,
    time: timeS,
  };
}

/** What a plan costs at some weights, whatever its margin. */
export function priceOfPlan({ problem }: Pick<SearchSpace, 'problem'>, heats: readonly PlannedHeat[], weights: Weights): number {
  const { protections, preference, time } = levelValues(problem, heats, 0);
  return weights.protection * protections + weights.heat * heats.length + weights.rank * preference + weights.second * time;
}

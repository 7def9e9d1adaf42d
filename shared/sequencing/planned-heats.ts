/** The heats that a search settled on, with the fewest protections that hold them, each kind within what one heat holds. */

import type { Entry } from './section-question.ts';
import type { Means, Technique } from './heat-oracle.ts';
import { guardCaps, type SearchSpace } from './heat-table.ts';
import { chooseGuards, GUARDED_KINDS, type GuardCaps } from './protection-caps.ts';

export interface PlannedHeat {
  targets: readonly number[];
  grade: number;
  technique: Technique;
}

const ANY_NUMBER: GuardCaps = [Infinity, Infinity, Infinity];

export const protectionsOf = (heats: readonly PlannedHeat[]): number =>
  heats.reduce((sum, { technique }) => sum + technique.length, 0);

/**
 * @param isRelaxed whether each heat may hold any number of guards
 * @returns null where a heat cannot hold as many as it needs
 */
export function plannedHeats(
  { problem, table }: SearchSpace,
  entries: readonly Entry[],
  levelK: number,
  isRelaxed = false,
): PlannedHeat[] | null {
  const gradeOf = new Map(entries.flatMap(({ heat, grade }) => heat.targets.map((j) => [j, grade] as const)));
  const heats: PlannedHeat[] = [];
  for (const { heat, grade, set } of entries) {
    const record = table.record(heat.component, heat.targets);
    const demands = table.demands(record, set, grade, levelK)!;
    const chosen = chooseGuards(
      record.warmed.map(({ joint }, i) => demands[i * problem.grades.length + (gradeOf.get(joint) ?? 0)]!),
      record.warmed.map(({ guards }) => guards),
      isRelaxed ? ANY_NUMBER : guardCaps(problem, set),
    );
    if (!chosen) return null;
    const guards = record.warmed.flatMap(({ id }, i): Means[] =>
      GUARDED_KINDS.flatMap((kind, bit): Means[] =>
        ((chosen[i]! >> bit) & 1) === 1 ? [{ kind, guards: id, reach: 'guarded' }] : [],
      ),
    );
    heats.push({ targets: heat.targets, grade, technique: [...set, ...guards] });
  }
  return heats;
}

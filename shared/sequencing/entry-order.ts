/** Which of several last heats of equal cost to try first, and which solders are beyond what is left to be spent. */

import type { Entry } from './section-question.ts';
import type { SearchSpace } from './heat-table.ts';

/** A joint that is left no solder without a protection. */
const NONE_LEFT = 100;

/** How much of the choice of the rest a heat is likely to take, from what is known of each of its targets with all else made. */
export function likelyTaken(space: SearchSpace, levelK: number, rows: Uint8Array, { heat, grade }: Entry): number {
  const { problem, table, sections } = space;
  const grades = problem.grades.length;
  let taken = 0;
  for (const target of heat.targets) {
    const known = table.record(sections.componentOf(sections.all, target), [target]);
    if (!table.isKnown(known, [])) continue;
    const demands = table.demands(known, [], grade, levelK);
    for (const [i, { joint }] of known.warmed.entries()) {
      if (joint < 0 || !heat.rest.some((group) => group.joints.includes(joint))) continue;
      let [free, left] = [0, 0];
      for (let g = 0; g < grades; g++) {
        if (rows[joint * grades + g] !== 0) continue;
        free++;
        if (!demands || (demands[i * grades + g]! & 1) !== 0) left++;
      }
      if (left < free) taken += left === 0 ? NONE_LEFT : 1 / left - 1 / free;
    }
  }
  return taken;
}

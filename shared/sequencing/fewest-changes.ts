/** The order of heats that sections leave open, settled so that solder is changed least. */

import type { PlannedHeat } from './section-search.ts';
import { Sections } from './sections.ts';
import { bitsOf, type SequenceProblem } from './sequence-problem.ts';

/** Beyond this many heats the order is left as it is: the ways to order them double with each. */
const MOST_HEATS = 14;

/** By heat, the mask of heats that must come before it: those of its own section, and those the order rules name. */
function earlierHeats(problem: SequenceProblem, heats: readonly PlannedHeat[]): number[] {
  const sections = new Sections(problem);
  let made = 0;
  return heats.map(({ targets }, i) => {
    made |= targets;
    const fire = sections.components(made).find(({ joints }) => (joints & targets) !== 0)!.joints;
    const isEarlier = (other: PlannedHeat): boolean =>
      (other.targets & fire) !== 0 || bitsOf(other.targets).some((j) => (problem.after[j]! & targets) !== 0);
    return heats.slice(0, i).reduce((mask, other, k) => (isEarlier(other) ? mask | (1 << k) : mask), 0);
  });
}

/** The same heats, none before one it depends on, with the fewest changes of solder; of equals the one nearest to the order given. */
export function fewestChanges(problem: SequenceProblem, heats: readonly PlannedHeat[]): PlannedHeat[] {
  if (heats.length > MOST_HEATS) return [...heats];
  const earlier = earlierHeats(problem, heats);
  const all = 2 ** heats.length - 1;
  const known = new Map<string, { changes: number; next: number }>();
  const from = (done: number, grade: number): { changes: number; next: number } => {
    if (done === all) return { changes: 0, next: -1 };
    const key = `${done}:${grade}`;
    const before = known.get(key);
    if (before) return before;
    let best = { changes: Infinity, next: -1 };
    for (const [i, { option }] of heats.entries()) {
      if ((done & (1 << i)) !== 0 || (earlier[i]! & ~done) !== 0) continue;
      const changes = from(done | (1 << i), option.grade).changes + Number(option.grade !== grade);
      if (changes < best.changes) best = { changes, next: i };
    }
    known.set(key, best);
    return best;
  };
  const order: PlannedHeat[] = [];
  let done = 0;
  while (done !== all) {
    const { next } = from(done, order.at(-1)?.option.grade ?? -1);
    order.push(heats[next]!);
    done |= 1 << next;
  }
  return order;
}

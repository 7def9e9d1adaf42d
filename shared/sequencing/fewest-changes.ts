/** The order of heats that sections leave open, settled so that solder is changed least. */

import type { PlannedHeat } from './planned-heats.ts';
import { earlierHeats } from './plan-order.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** Up to this many heats every order is looked at; beyond it the next heat is one with the solder in hand, where there is one. */
const MOST_HEATS = 14;

/** The same heats, none before one it depends on, with the fewest changes of solder; of equals the one nearest to the order given. */
export function fewestChanges(problem: SequenceProblem, heats: readonly PlannedHeat[]): PlannedHeat[] {
  const earlier = earlierHeats(problem, heats);
  return heats.length > MOST_HEATS ? solderInHand(heats, earlier) : everyOrder(heats, earlier);
}

function solderInHand(heats: readonly PlannedHeat[], earlier: readonly number[][]): PlannedHeat[] {
  const order: PlannedHeat[] = [];
  const done = new Set<number>();
  while (done.size < heats.length) {
    const free = [...heats.keys()].filter((i) => !done.has(i) && earlier[i]!.every((k) => done.has(k)));
    const next = free.find((i) => heats[i]!.grade === order.at(-1)?.grade) ?? free[0]!;
    done.add(next);
    order.push(heats[next]!);
  }
  return order;
}

function everyOrder(heats: readonly PlannedHeat[], earlierBy: readonly number[][]): PlannedHeat[] {
  const earlier = earlierBy.map((before) => before.reduce((mask, k) => mask | (1 << k), 0));
  const all = 2 ** heats.length - 1;
  const known = new Map<string, { changes: number; next: number }>();
  const from = (done: number, grade: number): { changes: number; next: number } => {
    if (done === all) return { changes: 0, next: -1 };
    const key = `${done}:${grade}`;
    const before = known.get(key);
    if (before) return before;
    let best = { changes: Infinity, next: -1 };
    for (const [i, heat] of heats.entries()) {
      if ((done & (1 << i)) !== 0 || (earlier[i]! & ~done) !== 0) continue;
      const changes = from(done | (1 << i), heat.grade).changes + Number(heat.grade !== grade);
      if (changes < best.changes) best = { changes, next: i };
    }
    known.set(key, best);
    return best;
  };
  const order: PlannedHeat[] = [];
  let done = 0;
  while (done !== all) {
    const { next } = from(done, order.at(-1)?.grade ?? -1);
    order.push(heats[next]!);
    done |= 1 << next;
  }
  return order;
}

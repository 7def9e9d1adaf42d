/**
 * A plan made better piece by piece: some joints near to each other are set free, the heats of all others keep their solder and their
 * order, and the best place for the free ones is searched for exactly.
 */

import type { Weights } from './section-question.ts';
import { type Allowance, AllowanceSpent, workUnits } from './allowance.ts';
import type { SearchSpace } from './heat-table.ts';
import { plannedHeats, type PlannedHeat } from './planned-heats.ts';
import { earlierHeats } from './plan-order.ts';
import { SectionSearch } from './section-search.ts';
import { Sections } from './sections.ts';
import type { SequenceProblem } from './sequence-problem.ts';
import { isWithinStock, type Found } from './stock-search.ts';

/** Joints set free at once. */
const MOST_FREE = 5;
/** Work units for one set of free joints. */
const UNITS_EACH = 20_000;

export interface Improvement {
  levelK: number;
  weights: Weights;
  /** By joint, the solders it may have. */
  rows: Uint8Array;
}

/** Ends when no set of free joints makes it better, or the allowance is spent; yields every plan that is better than the one before. */
export function* improvePlan(
  space: SearchSpace,
  improvement: Improvement,
  found: Found,
  allowance: Allowance,
): Generator<Found | null, Found> {
  let best = found;
  const { problem } = space;
  let sinceBetter = 0;
  for (let turn = 0; sinceBetter < 2 * problem.joints.length; turn++) {
    const first = Math.floor(turn / 2) % problem.joints.length;
    const free = turn % 2 === 0 ? around(problem, first) : nextTo(best.heats, first);
    sinceBetter++;
    const { limit } = allowance;
    try {
      allowance.limit = Math.min(limit, workUnits(allowance, space) + UNITS_EACH);
      const better = yield* freed(space, improvement, best, free, allowance);
      if (!better) continue;
      best = better;
      sinceBetter = 0;
      yield best;
    } catch (thrown) {
      if (!(thrown instanceof AllowanceSpent)) throw thrown;
      if (workUnits(allowance, space) >= limit) return best;
    } finally {
      allowance.limit = limit;
    }
  }
  return best;
}

/** A joint and those nearest to it, part by part. */
function around({ joints }: SequenceProblem, first: number): number[] {
  const free = [first];
  for (let k = 0; k < free.length && free.length < MOST_FREE; k++) {
    for (const [j, { parts }] of joints.entries()) {
      // Of the many on one part, others each time.
      const other = (j + first) % joints.length;
      const touches = joints[other]!.parts.some((part) => joints[free[k]!]!.parts.includes(part));
      if (parts.length > 0 && touches && !free.includes(other) && free.length < MOST_FREE) free.push(other);
    }
  }
  return free;
}

/** The joints of the heats that follow each other from the heat of a joint on. */
function nextTo(heats: readonly PlannedHeat[], first: number): number[] {
  const at = heats.findIndex(({ targets }) => targets.includes(first));
  const order = [...heats.slice(at), ...heats.slice(0, at)].flatMap(({ targets }) => targets);
  return order.slice(0, MOST_FREE);
}

function* freed(
  space: SearchSpace,
  { levelK, weights, rows }: Improvement,
  found: Found,
  free: readonly number[],
  allowance: Allowance,
): Generator<null, Found | null> {
  const { problem, table } = space;
  const grades = problem.grades.length;
  const kept = found.heats
    .map((heat) => ({ ...heat, targets: heat.targets.filter((j) => !free.includes(j)) }))
    .filter(({ targets }) => targets.length > 0);
  const earlier = earlierHeats(problem, kept);
  const after = problem.after.map((later) => [...later]);
  for (const [i, { targets }] of kept.entries()) {
    for (const k of earlier[i]!) for (const j of kept[k]!.targets) after[j]!.push(...targets);
  }
  const held = { ...problem, after, together: [...problem.together, ...kept.map(({ targets }) => targets)] };
  const own = { problem: held, table, sections: new Sections(held, space.sections.sets) };
  const only = rows.slice();
  for (const { targets, grade } of kept) {
    for (const j of targets) for (let g = 0; g < grades; g++) if (g !== grade) only[j * grades + g] = 255;
  }
  for (const isRelaxed of [true, false]) {
    const search = new SectionSearch(own, { levelK, weights, isRelaxed, isNear: false }, allowance);
    const steps = search.best(own.sections.all, only, found.cost);
    let step = steps.next();
    while (!step.done) {
      yield null;
      step = steps.next();
    }
    if (!step.value) return null;
    const heats = plannedHeats(own, step.value.entries, levelK);
    if (heats && isWithinStock(problem, heats)) return { cost: step.value.cost, heats };
  }
  return null;
}

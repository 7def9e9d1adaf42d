/**
 * A plan sought from its last heat to its first without turning back: of all that can be done next, only so many of the most promising
 * are followed. What it finds is a plan; that it finds none, or no better one, proves nothing.
 */

import type { SectionQuestion, Entry } from './section-question.ts';
import { type Allowance, AllowanceSpent, workUnits } from './allowance.ts';
import { settle, keyOf } from './demand-rows.ts';
import type { SearchSpace } from './heat-table.ts';
import type { JointSet } from './joint-set.ts';
import { entriesOf } from './last-entries.ts';
import { floorOf, priceOf } from './section-floor.ts';

interface State {
  groups: readonly JointSet[];
  rows: Uint8Array;
  cost: number;
  /** Its cost and what the rest takes at least. */
  least: number;
  tie: number;
  /** The heat chosen last, which comes before those chosen earlier. */
  entry: Entry | null;
  later: State | null;
}

/** Heats followed from each state: as many as are kept, but no more than this. */
const MOST_FROM_ONE = 24;

export function* beamSearch(
  space: SearchSpace,
  question: SectionQuestion,
  rows: Uint8Array,
  beam: { width: number; bound: number },
  allowance: Allowance,
): Generator<void, { cost: number; entries: Entry[] } | null> {
  const { problem, sections } = space;
  const grades = problem.grades.length;
  const floor = floorOf(space, question);
  const groups = sections.groups(sections.all);
  const own = rows.slice();
  const base = settle(own, sections.all.joints, grades, priceOf(problem, question.weights));
  if (!groups || base === null) return null;
  let states: State[] = [{ groups, rows: own, cost: base, least: base, tie: 0, entry: null, later: null }];
  while (states.length > 0) {
    const done = states.find((state) => state.groups.length === 0);
    if (done) return { cost: done.cost, entries: entriesTo(done) };
    const next = new Map<string, State>();
    for (const state of states) {
      for (const child of yield* children(space, question, state, beam, floor, allowance)) {
        const key = child.groups.map((group) => keyOf(group, child.rows, grades)).join('|');
        const known = next.get(key);
        if (!known || child.least < known.least) next.set(key, child);
      }
    }
    states = [...next.values()].sort((a, b) => a.least - b.least || a.tie - b.tie).slice(0, beam.width);
  }
  return null;
}

/** The states that the most promising last heats of the last group lead to. */
function* children(
  space: SearchSpace,
  question: SectionQuestion,
  state: State,
  beam: { width: number; bound: number },
  floor: ReturnType<typeof floorOf>,
  allowance: Allowance,
): Generator<void, State[]> {
  // Groups are listed in an order that keeps the rules: the last heat of all is one of the last group.
  const group = state.groups.at(-1)!;
  const others = state.groups.slice(0, -1);
  const othersLeast = others.reduce((sum, each) => sum + floor(each, state.rows), 0);
  const bound = beam.bound - state.cost - othersLeast;
  const expansion = entriesOf(space, question, floor, { group, rows: state.rows, bound });
  const found: State[] = [];
  const most = Math.min(beam.width, MOST_FROM_ONE);
  for (let entry = expansion.next(); entry && found.length < most; entry = expansion.next()) {
    if (!entry.rows) {
      expansion.evaluate(entry, bound);
      yield;
      continue;
    }
    found.push({
      groups: [...others, ...entry.heat.rest],
      // What a heat asks for does not touch other groups; the rows of all are carried along.
      rows: entry.rows,
      cost: state.cost + entry.ownCost,
      least: state.cost + entry.least + othersLeast,
      tie: state.tie + entry.tie,
      entry,
      later: state,
    });
  }
  allowance.options += expansion.looked();
  if (workUnits(allowance, space) > allowance.limit) throw new AllowanceSpent();
  yield;
  return found;
}

function entriesTo(state: State): Entry[] {
  const entries: Entry[] = [];
  for (let at: State | null = state; at?.entry; at = at.later) entries.push(at.entry);
  return entries;
}

/**
 * Which heat comes last. Heats of sections that do not hang together never touch each other, so a plan is a forest: take the last
 * heat away and what is left falls apart into groups that are planned one by one. What later heats demand of a joint is carried as
 * the number of protections it takes from them, by the solder it will have been made with: it is charged when that is settled.
 */

import type { SectionQuestion, Entry } from './section-question.ts';
import { type Allowance, AllowanceSpent, workUnits } from './allowance.ts';
import { settle, keyOf, type Rows } from './demand-rows.ts';
import { entriesOf, type Expansion } from './last-entries.ts';
import type { SearchSpace } from './heat-table.ts';
import type { JointSet } from './joint-set.ts';
import { floorOf, priceOf, type Floor } from './section-floor.ts';
import type { Windows } from './windows.ts';

interface Known {
  /** Cost of the best plan if `choice`, else a bound below it. */
  value: number;
  choice: Entry | null;
}

/** Work units between two chances to stop: so many options, or one heat simulated. */
const POLL_EVERY = 128;

/** Last heats that are kept, so that memory holds; a search that wants more has spent what it may. */
const MOST_LAID_OUT = 400_000;

export class SectionSearch {
  readonly #space: SearchSpace;
  readonly #question: SectionQuestion;
  readonly #allowance: Allowance;
  readonly #known = new Map<string, Known>();
  readonly #floor: Floor;
  #polledAt = 0;

  /** @param windows what small sets of joints cost at least at this level; null where that says nothing */
  constructor(space: SearchSpace, question: SectionQuestion, allowance: Allowance, windows: Windows | null = null) {
    this.#space = space;
    this.#question = question;
    this.#allowance = allowance;
    this.#floor = floorOf(space, question, windows);
    this.#polledAt = workUnits(allowance, space);
  }

  /** The best plan of a set of joints that costs less than `bound`, its heats in their order; null if there is none. */
  *best(joints: JointSet, rows: Rows, bound: number): Generator<void, { cost: number; entries: Entry[] } | null> {
    const groups = this.#space.sections.groups(joints);
    if (!groups) return null;
    const own = rows.slice();
    const base = settle(own, joints.joints, this.#grades, priceOf(this.#space.problem, this.#question.weights));
    if (base === null) return null;
    const rest = yield* this.#sum(groups, own, bound - base);
    if (base + rest >= bound) return null;
    const entries: Entry[] = [];
    for (const group of groups) this.#unfold(group, own, entries);
    return { cost: base + rest, entries };
  }

  /** Sum over groups, or a bound of at least `bound`. */
  *#sum(groups: readonly JointSet[], rows: Rows, bound: number): Generator<void, number> {
    const floors = groups.map((group) => this.#floor(group, rows));
    let rest = floors.reduce((sum, floor) => sum + floor, 0);
    if (rest >= bound) return rest;
    let cost = 0;
    for (const [i, group] of groups.entries()) {
      rest -= floors[i]!;
      const left = bound - cost - rest;
      if (floors[i]! >= left) return cost + rest + floors[i]!;
      const known = this.#known.get(keyOf(group, rows, this.#grades));
      const isSettled = known && (known.choice !== null || known.value >= left);
      cost += isSettled ? known.value : yield* this.#solve(group, rows, left);
      if (cost + rest >= bound) return cost + rest;
    }
    return cost;
  }

  get #grades(): number {
    return this.#space.problem.grades.length;
  }

  *#solve(group: JointSet, rows: Rows, bound: number): Generator<void, number> {
    let best = bound;
    let choice: Entry | null = null;
    const expansion: Expansion = entriesOf(this.#space, this.#question, this.#floor, { group, rows, bound });
    this.#allowance.options++;
    for (;;) {
      const entry = expansion.next();
      this.#allowance.options += expansion.looked();
      if (this.#isPollDue()) yield;
      if (!entry || entry.least >= best) break;
      if (!entry.rows) {
        expansion.evaluate(entry, best);
        continue;
      }
      const rest = yield* this.#sum(entry.heat.rest, entry.rows, best - entry.ownCost);
      if (entry.ownCost + rest < best) {
        best = entry.ownCost + rest;
        choice = entry;
      }
    }
    this.#known.set(keyOf(group, rows, this.#grades), { value: best, choice });
    return best;
  }

  /** @throws {AllowanceSpent} where the work units are used up */
  #isPollDue(): boolean {
    const spent = workUnits(this.#allowance, this.#space);
    if (spent > this.#allowance.limit || this.#space.sections.laidOut > MOST_LAID_OUT) throw new AllowanceSpent();
    if (spent - this.#polledAt < POLL_EVERY) return false;
    this.#polledAt = spent;
    return true;
  }

  #unfold(group: JointSet, rows: Rows, entries: Entry[]): void {
    const { choice } = this.#known.get(keyOf(group, rows, this.#grades))!;
    for (const rest of choice!.heat.rest) this.#unfold(rest, choice!.rows!, entries);
    entries.push(choice!);
  }
}

/**
 * Which heat comes last. Heats of sections that do not hang together never touch each other, so a plan is a forest: take the last
 * heat away and what is left falls apart into groups that are planned one by one. What later heats demand of a joint is carried as
 * the number of protections it takes from them, by the solder it will have been made with: it is charged when that is settled.
 */

import { entriesOf, type Entry, type Expansion, type SectionQuestion } from './last-entries.ts';
import type { SearchSpace } from './heat-table.ts';
import type { JointSet } from './joint-set.ts';
import { floorOf, priceOf, type Floor } from './section-floor.ts';
import { NEVER } from './protection-caps.ts';
import type { WindowCosts } from './windows.ts';

/** What a search may still spend; shared by all its steps. */
export interface Allowance {
  options: number;
  /** Work units at which it stops. */
  limit: number;
}

/** Thrown through the search when its allowance is spent; caught by the level that called it. */
export class AllowanceSpent extends Error {}

interface Known {
  /** Cost of the best plan if `choice`, else a bound below it. */
  value: number;
  choice: Entry | null;
}

/** Work units between two chances to stop: so many options, or one heat simulated. */
const POLL_EVERY = 128;

/** Last heats that are kept, so that memory holds; a search that wants more has spent what it may. */
const MOST_LAID_OUT = 400_000;

/** By joint and grade: protections that later heats take of it; NEVER where it cannot be of that grade. */
export type Rows = Uint8Array;

export class SectionSearch {
  readonly #space: SearchSpace;
  readonly #question: SectionQuestion;
  readonly #allowance: Allowance;
  readonly #known = new Map<string, Known>();
  readonly #floor: Floor;
  #windows: WindowCosts | null = null;
  #polledAt = 0;

  constructor(space: SearchSpace, question: SectionQuestion, allowance: Allowance) {
    this.#space = space;
    this.#question = question;
    this.#allowance = allowance;
    this.#floor = floorOf(space, question, () => this.#windows);
    this.#polledAt = workUnits(allowance, space);
  }

  /**
   * The best plan of a set of joints that costs less than `bound`, its heats in their order; null if there is none.
   *
   * @param windows what small sets of joints cost at least, with the solders that `rows` leave them
   */
  *best(
    joints: JointSet,
    rows: Rows,
    bound: number,
    windows: WindowCosts | null = null,
  ): Generator<void, { cost: number; entries: Entry[] } | null> {
    this.#windows = windows;
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

/** Options looked at, ways to protect among them, last heats laid out, and the heats simulated at what each costs. */
export function workUnits(allowance: Allowance, { table, sections }: Pick<SearchSpace, 'table' | 'sections'>): number {
  return allowance.options + sections.laidOut + table.thermalRuns * table.oracle.workUnitsPerRun;
}

/**
 * Takes what a joint costs with any of its solders out of its row, and says what that is in all; null where one is left without a
 * solder. Where protections cost nothing, all that can be done is free.
 */
export function settle(rows: Rows, joints: readonly number[], grades: number, price: number): number | null {
  let count = 0;
  for (const j of joints) {
    let least = NEVER;
    for (let at = j * grades; at < (j + 1) * grades; at++) least = Math.min(least, rows[at]!);
    if (least === NEVER) return null;
    if (price === 0) {
      for (let at = j * grades; at < (j + 1) * grades; at++) if (rows[at] !== NEVER) rows[at] = 0;
    } else if (least > 0) {
      count += least;
      for (let at = j * grades; at < (j + 1) * grades; at++) if (rows[at] !== NEVER) rows[at]! -= least;
    }
  }
  return count * price;
}

/** A group with what later heats ask of it, as a text. */
export function keyOf({ id, joints }: JointSet, rows: Rows, grades: number): string {
  let text = String.fromCharCode(id & 0xffff, id >>> 16);
  for (const j of joints) {
    for (let at = j * grades; at < (j + 1) * grades; at++) text += String.fromCharCode(rows[at]!);
  }
  return text;
}

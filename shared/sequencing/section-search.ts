/**
 * Which heat comes last. Heats of sections that do not hang together never touch each other, so a plan is a forest: take the last
 * heat away and what is left falls apart into groups that are planned one by one. What later heats demand of a joint is carried as
 * the mask of grades with which it may still be made.
 */

import { heatOptions, undominated, type HeatOption } from './heat-options.ts';
import type { HeatTable } from './heat-table.ts';
import type { LastHeat, Sections } from './sections.ts';
import { bitsOf, countBits } from './sequence-problem.ts';

/** How a plan is priced: whole numbers, added up over its heats. */
export interface Weights {
  protection: number;
  heat: number;
  /** A joint, times the rank of its grade. */
  rank: number;
  second: number;
}

export interface PlannedHeat {
  targets: number;
  option: HeatOption;
}

/** What a search may still spend; shared by all its steps. */
export interface Allowance {
  options: number;
  /** Work units at which it stops. */
  limit: number;
}

/** Thrown through the search when its allowance is spent; caught by the level that called it. */
export class AllowanceSpent extends Error {}

interface Known {
  /** Cost of the best plan if `exact`, else a bound below it. */
  value: number;
  exact: boolean;
  choice: { heat: LastHeat; option: HeatOption; masks: readonly number[] } | null;
}

interface Candidate {
  heat: LastHeat;
  option: HeatOption;
  ownCost: number;
  leastCost: number;
  masks: readonly number[];
}

/** Work units between two chances to stop: so many options, or one heat simulated. */
const POLL_EVERY = 128;

export interface SectionQuestion {
  levelK: number;
  /** Most protections in one heat. */
  mostProtections: number;
  weights: Weights;
}

export class SectionSearch {
  readonly #table: HeatTable;
  readonly #sections: Sections;
  readonly #question: SectionQuestion;
  readonly #allowance: Allowance;
  readonly #options: Map<string, HeatOption[]>;
  readonly #known = new Map<string, Known>();
  #polledAt = 0;

  /** @param options kept between searches at one level and number of protections */
  constructor(
    table: HeatTable,
    sections: Sections,
    question: SectionQuestion,
    allowance: Allowance,
    options: Map<string, HeatOption[]>,
  ) {
    this.#table = table;
    this.#sections = sections;
    this.#question = question;
    this.#allowance = allowance;
    this.#options = options;
  }

  /** The best plan of all open joints that costs less than `bound`, in the order of its heats; null if there is none. */
  *best(masks: readonly number[], bound: number): Generator<void, { cost: number; heats: PlannedHeat[] } | null> {
    const all = masks.reduce((mask, _, j) => mask | (1 << j), 0);
    const groups = this.#sections.groups(all);
    if (!groups || masks.includes(0)) return null;
    const cost = yield* this.#sum(groups, masks, bound);
    if (cost >= bound) return null;
    const heats: PlannedHeat[] = [];
    for (const group of groups) this.#unfold(group, masks, heats);
    return { cost, heats };
  }

  /** Sum over groups, or a bound of at least `bound`. */
  *#sum(groups: readonly number[], masks: readonly number[], bound: number): Generator<void, number> {
    let rest = groups.reduce((sum, group) => sum + this.#least(group, masks), 0);
    let cost = 0;
    for (const group of groups) {
      rest -= this.#least(group, masks);
      if (cost + rest >= bound) return cost + rest;
      const known = this.#known.get(key(group, masks));
      const own =
        known && (known.exact || known.value >= bound - cost - rest)
          ? known.value
          : yield* this.#solve(group, masks, bound - cost - rest);
      cost += own;
      if (cost + rest >= bound) return cost + rest;
    }
    return cost;
  }

  /** No plan of the group costs less. */
  #least(group: number, masks: readonly number[]): number {
    const { weights } = this.#question;
    const count = countBits(group);
    const heats = Math.ceil(count / this.#table.problem.maxJointsPerHeat);
    let cost = weights.heat * heats;
    if (weights.second > 0) {
      cost += weights.second * heats * this.#table.problem.heatTimeS({ joints: 1, parts: 1, protections: 0 });
    }
    if (weights.rank > 0) {
      for (const j of bitsOf(group))
        cost += weights.rank * this.#table.problem.grades[31 - Math.clz32(masks[j]! & -masks[j]!)]!.rank;
    }
    return cost;
  }

  *#solve(group: number, masks: readonly number[], bound: number): Generator<void, number> {
    let best = bound;
    let choice: Known['choice'] = null;
    for (const candidate of yield* this.#candidates(group, masks)) {
      if (candidate.leastCost >= best) break;
      const rest = yield* this.#sum(candidate.heat.rest, candidate.masks, best - candidate.ownCost);
      if (candidate.ownCost + rest < best) {
        best = candidate.ownCost + rest;
        choice = { heat: candidate.heat, option: candidate.option, masks: candidate.masks };
      }
    }
    this.#known.set(key(group, masks), { value: best, exact: choice !== null, choice });
    return best;
  }

  /** The last heats worth trying, cheapest first. */
  *#candidates(group: number, masks: readonly number[]): Generator<void, Candidate[]> {
    const all: Candidate[] = [];
    for (const heat of this.#sections.lastHeats(group)) {
      const own: Candidate[] = [];
      const options = this.#optionsOf(heat);
      // Also where a heat has none: that was found out by simulating it.
      if (this.#isPollDue()) yield;
      for (const option of options) {
        this.#allowance.options++;
        if (this.#isPollDue()) yield;
        const candidate = this.#candidate(heat, option, masks);
        if (candidate) own.push(candidate);
      }
      all.push(
        ...undominated(own, (a, b) => a.ownCost <= b.ownCost && a.masks.every((mask, j) => (mask & b.masks[j]!) === b.masks[j]!)),
      );
    }
    return all.sort((a, b) => a.leastCost - b.leastCost);
  }

  /** @throws {AllowanceSpent} where the work units are used up */
  #isPollDue(): boolean {
    const spent = workUnits(this.#allowance, this.#table);
    if (spent > this.#allowance.limit) throw new AllowanceSpent();
    if (spent - this.#polledAt < POLL_EVERY) return false;
    this.#polledAt = spent;
    return true;
  }

  #candidate(heat: LastHeat, option: HeatOption, masks: readonly number[]): Candidate | null {
    const { weights } = this.#question;
    const { problem } = this.#table;
    const targets = bitsOf(heat.targets);
    if (!targets.every((j) => (masks[j]! & (1 << option.grade)) !== 0)) return null;
    const narrowed = masks.map((mask, j) => ((heat.targets & (1 << j)) === 0 ? mask & option.stands[j]! : 0));
    for (const rest of heat.rest) for (const j of bitsOf(rest)) if (narrowed[j] === 0) return null;
    const timeS =
      weights.second === 0
        ? 0
        : problem.heatTimeS({ joints: targets.length, parts: heat.component.parts.length, protections: option.protections });
    const ownCost =
      weights.protection * option.protections +
      weights.heat +
      weights.rank * problem.grades[option.grade]!.rank * targets.length +
      weights.second * timeS;
    const leastCost = heat.rest.reduce((sum, rest) => sum + this.#least(rest, narrowed), ownCost);
    return { heat, option, ownCost, leastCost, masks: narrowed };
  }

  #optionsOf(heat: LastHeat): readonly HeatOption[] {
    const id = `${heat.component.joints}:${heat.targets}`;
    let options = this.#options.get(id);
    if (!options) {
      const record = this.#table.record(heat.component, heat.targets);
      options = heatOptions(this.#table, record, this.#question.levelK, this.#question.mostProtections);
      this.#options.set(id, options);
    }
    return options;
  }

  #unfold(group: number, masks: readonly number[], heats: PlannedHeat[]): void {
    const { choice } = this.#known.get(key(group, masks))!;
    for (const rest of choice!.heat.rest) this.#unfold(rest, choice!.masks, heats);
    heats.push({ targets: choice!.heat.targets, option: choice!.option });
  }
}

/** Options looked at, ways to protect among them, and the heats simulated at what each costs. */
export function workUnits(allowance: Allowance, table: HeatTable): number {
  return allowance.options + table.combinations + table.thermalRuns * table.oracle.workUnitsPerRun;
}

function key(group: number, masks: readonly number[]): string {
  let text = String(group);
  for (const j of bitsOf(group)) text += `,${masks[j]}`;
  return text;
}

/** One level of the objective at a time: whether a margin can be kept, and the cheapest plan that keeps it. */

import type { HeatOption } from './heat-options.ts';
import type { HeatOracle } from './heat-oracle.ts';
import { HeatTable } from './heat-table.ts';
import { SectionSearch, type Allowance, type PlannedHeat, type Weights } from './section-search.ts';
import { Sections } from './sections.ts';
import type { SequenceProblem } from './sequence-problem.ts';
import { bestWithinStock } from './stock-search.ts';

const FEASIBLE: Weights = { protection: 0, heat: 0, rank: 0, second: 0 };
export const COUNTS: Weights = { protection: 1000, heat: 1, rank: 0, second: 0 };
export const RANKS: Weights = { protection: 1e8, heat: 1e5, rank: 1, second: 0 };
export const EVERYTHING: Weights = { protection: 1e13, heat: 1e10, rank: 1e6, second: 1 };

/** Protections of the whole plan up to which a plan is sought before asking whether the level can be reached at all. */
const FEW_PROTECTIONS = 3;

export interface Found {
  cost: number;
  heats: PlannedHeat[];
}

export class LevelSearch {
  readonly problem: SequenceProblem;
  readonly table: HeatTable;
  readonly allowance: Allowance;
  readonly #sections: Sections;
  readonly #options = new Map<string, Map<string, HeatOption[]>>();

  constructor(problem: SequenceProblem, oracle: HeatOracle, limitUnits: number) {
    this.problem = problem;
    this.table = new HeatTable(problem, oracle);
    this.#sections = new Sections(problem);
    this.allowance = { options: 0, limit: limitUnits };
  }

  get masks(): number[] {
    return this.problem.joints.map(({ allowed }) => allowed);
  }

  /** Most protections that one heat can hold. */
  get mostInAHeat(): number {
    const { maxMeans } = this.problem;
    return maxMeans.flame_away + maxMeans.shield + maxMeans.sink + maxMeans.anti_flow;
  }

  solve(
    levelK: number,
    mostProtections: number,
    weights: Weights,
    masks: readonly number[],
    bound: number,
  ): Generator<void, Found | null> {
    const capped = Math.min(mostProtections, this.mostInAHeat);
    const id = `${levelK}:${capped}`;
    const options = this.#options.get(id) ?? new Map<string, HeatOption[]>();
    this.#options.set(id, options);
    const question = { levelK, mostProtections: capped, weights };
    const search = new SectionSearch(this.table, this.#sections, question, this.allowance, options);
    return bestWithinStock(this.problem, search, masks, bound);
  }

  /** Any plan at a level, with up to so many protections in a heat. */
  feasible(levelK: number, mostProtections = this.mostInAHeat): Generator<void, Found | null> {
    return this.solve(levelK, mostProtections, FEASIBLE, this.masks, 1);
  }

  /** Fewest protections, then fewest heats, at a level; null if no plan reaches it. */
  *fewest(levelK: number): Generator<void, Found | null> {
    const within = (protections: number): Generator<void, Found | null> =>
      this.solve(levelK, protections, COUNTS, this.masks, (protections + 1) * COUNTS.protection);
    for (let protections = 0; ; protections++) {
      const found = yield* within(protections);
      if (found || this.mostInAHeat === 0) return found;
      if (protections === FEW_PROTECTIONS && !(yield* this.feasible(levelK))) return null;
    }
  }

  /** Margin levels from the target down to the least. */
  get levelsK(): number[] {
    const { leastK, targetK, stepK } = this.problem.margin;
    const steps = targetK > leastK ? Math.round((targetK - leastK) / stepK) : 0;
    return Array.from({ length: steps + 1 }, (_, i) => (i === 0 ? targetK : targetK - i * stepK));
  }

  /** The highest level of the grid that some plan reaches, and the best such plan by protections and heats. */
  *highest(): Generator<void, { levelK: number; found: Found } | null> {
    const { levelsK } = this;
    const atTarget = yield* this.fewest(levelsK[0]!);
    if (atTarget) return { levelK: levelsK[0]!, found: atTarget };
    // Levels up to `above` cannot be reached; level `reached` can.
    let above = 0;
    let reached = levelsK.length;
    while (reached - above > 1) {
      const middle = Math.floor((above + reached) / 2);
      if (yield* this.feasible(levelsK[middle]!)) reached = middle;
      else above = middle;
    }
    const levelK = levelsK[reached];
    return levelK === undefined ? null : { levelK, found: (yield* this.fewest(levelK))! };
  }
}

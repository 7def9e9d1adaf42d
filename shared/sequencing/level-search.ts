/** One level of the objective at a time: whether a margin can be kept, and the cheapest plan that keeps it. */

import type { HeatOracle } from './heat-oracle.ts';
import { HeatTable, type SearchSpace } from './heat-table.ts';
import type { Weights } from './last-entries.ts';
import { plannedHeats, protectionsOf } from './planned-heats.ts';
import { NEVER } from './protection-caps.ts';
import { priceOf } from './section-floor.ts';
import { SectionSearch, type Allowance } from './section-search.ts';
import { Sections } from './sections.ts';
import type { SequenceProblem } from './sequence-problem.ts';
import { bestWithinStock, type Found } from './stock-search.ts';

const FEASIBLE: Weights = { protection: 0, heat: 0, rank: 0, second: 0 };
export const COUNTS: Weights = { protection: 1000, heat: 1, rank: 0, second: 0 };
export const RANKS: Weights = { protection: 1e8, heat: 1e5, rank: 1, second: 0 };
export const EVERYTHING: Weights = { protection: 1e13, heat: 1e10, rank: 1e6, second: 1 };

/** Protections of the whole plan up to which a plan is sought before asking whether the level can be reached at all. */
const FEW_PROTECTIONS = 3;

export class LevelSearch implements SearchSpace {
  readonly problem: SequenceProblem;
  readonly table: HeatTable;
  readonly sections: Sections;
  readonly allowance: Allowance;
  readonly #searches = new Map<string, SectionSearch>();

  constructor(problem: SequenceProblem, oracle: HeatOracle, limitUnits: number) {
    this.problem = problem;
    this.table = new HeatTable(problem, oracle);
    this.sections = new Sections(problem);
    this.allowance = { options: 0, limit: limitUnits };
  }

  get masks(): number[] {
    return this.problem.joints.map(({ allowed }) => allowed);
  }

  /** Whether a heat can hold any protection at all. */
  get hasProtections(): boolean {
    return Object.values(this.problem.maxMeans).some((most) => most > 0);
  }

  /** The cheapest plan at a level that costs less than a bound, the joints being left these solders. */
  solve(levelK: number, weights: Weights, masks: readonly number[], bound: number): Generator<void, Found | null> {
    return bestWithinStock(this.problem, (given, least) => this.#solve(levelK, weights, given, least), masks, bound);
  }

  /** A plan sought without turning back far, which proves nothing. */
  *dive(levelK: number, weights: Weights, masks: readonly number[], width: number): Generator<void, Found | null> {
    const seek = function* (this: LevelSearch, given: readonly number[], bound: number): Generator<void, Found | null> {
      for (const isRelaxed of [true, false]) {
        const search = new SectionSearch(this, { levelK, weights, isRelaxed, width }, this.allowance);
        const found = yield* search.best(this.sections.all, this.rowsOf(given), bound);
        const heats = found && plannedHeats(this, found.entries, levelK);
        if (heats) return { cost: found.cost, heats };
        if (!found) return null;
      }
      return null;
    }.bind(this);
    return yield* bestWithinStock(this.problem, seek, masks, Infinity);
  }

  rowsOf(masks: readonly number[]): Uint8Array {
    const grades = this.problem.grades.length;
    return Uint8Array.from({ length: masks.length * grades }, (_, at) =>
      (masks[Math.floor(at / grades)]! & (1 << (at % grades))) === 0 ? NEVER : 0,
    );
  }

  /** First without counting how many guards a heat holds, which bounds the cost from below and mostly suffices. */
  *#solve(levelK: number, weights: Weights, masks: readonly number[], bound: number): Generator<void, Found | null> {
    const rows = this.rowsOf(masks);
    const relaxed = yield* this.#search(levelK, weights, true).best(this.sections.all, rows, bound);
    if (!relaxed) return null;
    const heats = plannedHeats(this, relaxed.entries, levelK);
    const bare = plannedHeats(this, relaxed.entries, levelK, true)!;
    const extra = heats ? (protectionsOf(heats) - protectionsOf(bare)) * priceOf(this.problem, weights) : Infinity;
    if (extra === 0) return { cost: relaxed.cost, heats: heats! };
    const least = Math.min(bound, relaxed.cost + extra);
    const exact = yield* this.#search(levelK, weights, false).best(this.sections.all, rows, least);
    if (exact) return { cost: exact.cost, heats: plannedHeats(this, exact.entries, levelK)! };
    return heats && relaxed.cost + extra < bound ? { cost: relaxed.cost + extra, heats } : null;
  }

  #search(levelK: number, weights: Weights, isRelaxed: boolean): SectionSearch {
    const key = `${levelK}:${weights.protection}:${isRelaxed}`;
    let search = this.#searches.get(key);
    if (!search) {
      search = new SectionSearch(this, { levelK, weights, isRelaxed }, this.allowance);
      this.#searches.set(key, search);
    }
    return search;
  }

  /** Any plan at a level. */
  feasible(levelK: number): Generator<void, Found | null> {
    return this.solve(levelK, FEASIBLE, this.masks, 1);
  }

  /** False only where no plan keeps a level, were a heat to hold any number of guards. */
  *mayReach(levelK: number): Generator<void, boolean> {
    const search = this.#search(levelK, FEASIBLE, true);
    return (yield* search.best(this.sections.all, this.rowsOf(this.masks), 1)) !== null;
  }

  /** Fewest protections, then fewest heats, at a level; null if no plan reaches it. */
  *fewest(levelK: number): Generator<void, Found | null> {
    for (let protections = 0; ; protections++) {
      const found = yield* this.solve(levelK, COUNTS, this.masks, (protections + 1) * COUNTS.protection);
      if (found || !this.hasProtections) return found;
      if (protections === 0 && !(yield* this.mayReach(levelK))) return null;
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
    // Levels up to `above` cannot be reached; level `reached` can, by the plan found.
    let above = 0;
    let reached = levelsK.length;
    let found: Found | null = null;
    while (reached - above > 1) {
      const middle = Math.floor((above + reached) / 2);
      const inMiddle = yield* this.fewest(levelsK[middle]!);
      if (inMiddle) [reached, found] = [middle, inMiddle];
      else above = middle;
    }
    return found && { levelK: levelsK[reached]!, found };
  }
}

/** One level of the objective at a time: whether a margin can be kept, and the cheapest plan that keeps it. */

import type { Weights } from './section-question.ts';
import type { Allowance } from './allowance.ts';
import type { HeatOracle } from './heat-oracle.ts';
import { HeatTable, type SearchSpace } from './heat-table.ts';
import { beamSearch } from './beam-search.ts';
import type { BestPlan } from './best-plan.ts';
import { priceOfPlan } from './level-values.ts';
import { plannedHeats, protectionsOf } from './planned-heats.ts';
import { NEVER } from './protection-caps.ts';
import { priceOf } from './section-floor.ts';
import { SectionSearch } from './section-search.ts';
import { Sections } from './sections.ts';
import { countBits, type SequenceProblem } from './sequence-problem.ts';
import { bestWithinStock, isWithinStock, type Found } from './stock-search.ts';
import { Windows } from './windows.ts';

/** For any plan at all. */
export const FEASIBLE: Weights = { protection: 0, heat: 0, rank: 0, second: 0 };
export const COUNTS: Weights = { protection: 1000, heat: 1, rank: 0, second: 0 };
export const RANKS: Weights = { protection: 1e8, heat: 1e5, rank: 1, second: 0 };
export const EVERYTHING: Weights = { protection: 1e13, heat: 1e10, rank: 1e6, second: 1 };

/** Protections of the whole plan up to which a plan is sought before asking whether the level can be reached at all. */
const FEW_PROTECTIONS = 3;

/** A piece of fewer joints is searched sooner than its parts are looked at. */
const WINDOWS_FROM = 6;

export class LevelSearch implements SearchSpace {
  readonly problem: SequenceProblem;
  readonly table: HeatTable;
  readonly sections: Sections;
  readonly allowance: Allowance;
  readonly #searches = new Map<string, SectionSearch>();
  readonly #windows = new Map<number, Windows>();

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

  /** A plan sought without turning back, which proves nothing. */
  *dive(
    levelK: number,
    weights: Weights,
    masks: readonly number[],
    beam: { width: number; bound: number },
  ): Generator<void, Found | null> {
    for (const isRelaxed of [true, false]) {
      const question = { levelK, weights, isRelaxed, isNear: true };
      const found = yield* beamSearch(this, question, this.rowsOf(masks), beam, this.allowance);
      const heats = found && plannedHeats(this, found.entries, levelK);
      if (heats && isWithinStock(this.problem, heats)) return { cost: priceOfPlan(this, heats, weights), heats };
      if (!found) return null;
    }
    return null;
  }

  get rows(): Uint8Array {
    return this.rowsOf(this.masks);
  }

  /** Every choice of so many solders, as the solders that each joint is then left. */
  maskSets(size: number): number[][] {
    return Array.from({ length: 2 ** this.problem.grades.length }, (_, set) => set)
      .filter((set) => countBits(set) === size)
      .map((set) => this.masks.map((mask) => mask & set))
      .filter((left) => !left.includes(0));
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

  /** What small sets of joints cost at least at a level; null where that says nothing of the whole. */
  #windowsAt(levelK: number): Windows | null {
    const isSmall = this.problem.joints.length < WINDOWS_FROM;
    if (isSmall || !this.table.oracle.isMonotone || levelK === Number.NEGATIVE_INFINITY) return null;
    let windows = this.#windows.get(levelK);
    if (!windows) {
      windows = new Windows(this, levelK, this.rowsOf(this.masks), this.allowance);
      this.#windows.set(levelK, windows);
    }
    return windows;
  }

  #search(levelK: number, weights: Weights, isRelaxed: boolean): SectionSearch {
    const key = `${levelK}:${weights.protection}:${isRelaxed}`;
    let search = this.#searches.get(key);
    if (!search) {
      search = new SectionSearch(this, { levelK, weights, isRelaxed, isNear: false }, this.allowance, this.#windowsAt(levelK));
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
    const rows = this.rowsOf(this.masks);
    return (yield* search.best(this.sections.all, rows, 1)) !== null;
  }

  /** Protections that small sets of joints take at least at a level; Infinity where one of them cannot be made. */
  windowFloor(levelK: number, rows: Uint8Array): number {
    const prices = { price: 1, ranks: this.problem.grades.map(() => 0) };
    return this.#windowsAt(levelK)?.least(this.sections.all.joints, rows, prices) ?? 0;
  }

  /**
   * Fewest protections, then fewest heats, at a level; null if no plan reaches it.
   *
   * @param best what is known: a plan at this level is only looked for below what it takes
   */
  *fewest(levelK: number, best?: BestPlan): Generator<void, Found | null> {
    const floor = this.windowFloor(levelK, this.rows);
    if (floor === Infinity) return null;
    best?.boundProtections(levelK, floor);
    const known = best?.plan?.levelK === levelK ? best.plan : null;
    const most = known ? priceOfPlan(this, known.heats, COUNTS) : Infinity;
    for (let protections = floor; ; protections++) {
      const bound = Math.min(most, (protections + 1) * COUNTS.protection);
      const found = yield* this.solve(levelK, COUNTS, this.masks, bound);
      if (found) return found;
      if (bound === most) return { cost: most, heats: [...known!.heats] };
      if (!this.hasProtections) return null;
      best?.boundProtections(levelK, protections + 1);
      if (known) continue;
      if (protections === floor && !(yield* this.mayReach(levelK))) return null;
      if (protections === floor + FEW_PROTECTIONS && !(yield* this.feasible(levelK))) return null;
    }
  }

  /** Margin levels from the target down to the least. */
  get levelsK(): number[] {
    const { leastK, targetK, stepK } = this.problem.margin;
    const steps = targetK > leastK ? Math.round((targetK - leastK) / stepK) : 0;
    return Array.from({ length: steps + 1 }, (_, i) => (i === 0 ? targetK : targetK - i * stepK));
  }

  /** The highest level of the grid that some plan reaches, and the best such plan by protections and heats. */
  *highest(best: BestPlan): Generator<void, { levelK: number; found: Found } | null> {
    const { levelsK } = this;
    // Levels up to `above` cannot be reached; level `reached` can, by the plan found.
    let above = levelsK.findIndex((levelK) => levelK <= best.mostK) - 1;
    let reached = levelsK.length;
    let found: Found | null = null;
    for (let at = above + 1; reached - above > 1; at = Math.floor((above + reached) / 2)) {
      const levelK = levelsK[at]!;
      const atLevel = yield* this.fewest(levelK, best);
      if (atLevel) {
        [reached, found] = [at, atLevel];
        best.offer(levelK, atLevel.heats);
      } else {
        above = at;
        best.mostK = Math.min(best.mostK, levelsK[at + 1] ?? levelK);
      }
    }
    return found && { levelK: levelsK[reached]!, found };
  }
}

/** The best plan that a search has met so far, and how good any plan could still be. */

import { LEVELS, type LevelName, type Proof } from './levels.ts';
import { levelValues } from './level-values.ts';
import type { PlannedHeat } from './planned-heats.ts';
import { bitsOf, type SequenceProblem } from './sequence-problem.ts';

export interface Plan {
  levelK: number;
  heats: readonly PlannedHeat[];
}

export class BestPlan {
  readonly problem: SequenceProblem;
  readonly order: readonly LevelName[];
  plan: Plan | null = null;
  /** No plan keeps a higher margin level. */
  mostK: number;
  /** Levels up to this place in the order are proven. */
  #provenUpTo = -1;
  readonly #leastProtections = new Map<number, number>();
  #values: Readonly<Record<LevelName, number>> | null = null;

  constructor(problem: SequenceProblem, preferHigherGrades: boolean) {
    this.problem = problem;
    this.mostK = problem.margin.targetK;
    this.order = preferHigherGrades ? ['margin', 'protections', 'heats', 'preference', 'grades', 'time'] : LEVELS;
  }

  /** Keeps a plan if it is better than what there is. */
  offer(levelK: number, heats: readonly PlannedHeat[]): void {
    const values = levelValues(this.problem, heats, levelK);
    if (this.#values) {
      const differing = this.order.find((level) => values[level] !== this.#values![level]);
      if (differing === undefined) return;
      const isMore = values[differing] > this.#values[differing];
      if (isMore !== (differing === 'margin')) return;
    }
    this.plan = { levelK, heats };
    this.#values = values;
  }

  prove(level: LevelName): void {
    this.#provenUpTo = Math.max(this.#provenUpTo, this.order.indexOf(level));
  }

  isProven(level: LevelName): boolean {
    return this.order.indexOf(level) <= this.#provenUpTo;
  }

  /** No plan at a margin level takes fewer protections. */
  boundProtections(levelK: number, least: number): void {
    this.#leastProtections.set(levelK, Math.max(least, this.leastProtections(levelK)));
  }

  leastProtections(levelK: number): number {
    return this.#leastProtections.get(levelK) ?? 0;
  }

  valueOf(level: LevelName): number | null {
    return this.#values?.[level] ?? null;
  }

  get leastHeats(): number {
    return Math.ceil(this.problem.joints.length / this.problem.maxJointsPerHeat);
  }

  /** Where what was met is as good as what can be, it is proven without a search. */
  proveByBounds(): void {
    if (!this.plan) return;
    const { levelK } = this.plan;
    const isMet: readonly [LevelName, boolean][] = [
      ['margin', levelK >= this.mostK],
      ['protections', this.valueOf('protections')! <= this.leastProtections(levelK)],
      ['heats', this.valueOf('heats')! <= this.leastHeats],
    ];
    for (const [level, isBest] of isMet) {
      if (this.isProven(level)) continue;
      if (!isBest) return;
      this.prove(level);
    }
  }

  proof(): Proof[] {
    const { problem } = this;
    const bounds: Record<LevelName, number> = {
      margin: this.mostK,
      // Of a lower margin than may be reached, nothing is known of the protections that more would take.
      protections: this.plan && this.isProven('margin') ? this.leastProtections(this.plan.levelK) : 0,
      heats: this.leastHeats,
      grades: Math.min(1, problem.joints.length),
      preference: problem.joints.reduce((sum, { allowed }) => sum + (problem.grades[bitsOf(allowed)[0] ?? 0]?.rank ?? 0), 0),
      time: 0,
    };
    return this.order.map((level): Proof => {
      const [value, proven] = [this.valueOf(level), this.isProven(level)];
      return { level, value, bound: proven ? value : bounds[level], proven, heuristic: false };
    });
  }
}

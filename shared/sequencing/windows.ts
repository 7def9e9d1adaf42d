/**
 * What small sets of joints near to each other cost at least, made alone. Sets that share no joint add up: where more joints in the
 * fire never cool another and more targets never either, a plan of the whole piece, with all other joints struck out of it, is a plan
 * of the set that costs no more.
 */

import type { Weights, WindowCost, WindowCosts } from './section-question.ts';
import type { Allowance } from './allowance.ts';
import { runToEnd } from '../run-to-end.ts';
import { HeatTable, type SearchSpace } from './heat-table.ts';
import { windowOracle, windowProblem } from './restricted-problem.ts';
import { SectionSearch } from './section-search.ts';
import { Sections } from './sections.ts';

const MOST_IN_A_WINDOW = 4;
/** Joints of the same part that a joint is paired with, in the order of their ids. */
const MOST_PAIRS = 8;

/** Heats are counted elsewhere. */
const ALONE: Weights = { protection: 1e8, heat: 0, rank: 1, second: 0 };

const NOTHING: WindowCost = { protections: 0, rank: 0 };
const IMPOSSIBLE: WindowCost = { protections: Infinity, rank: Infinity };

/** The costs of sets of joints at one margin level. */
class Window {
  readonly joints: readonly number[];
  readonly #search: SectionSearch;
  readonly #sections: Sections;
  readonly #grades: number;

  constructor(joints: readonly number[], space: SearchSpace, levelK: number, allowance: Allowance) {
    this.joints = joints;
    const problem = windowProblem(space.problem, joints);
    this.#grades = problem.grades.length;
    this.#sections = new Sections(problem);
    const table = new HeatTable(problem, windowOracle(space.problem, space.table.oracle));
    const own = { problem, table, sections: this.#sections };
    this.#search = new SectionSearch(own, { levelK, weights: ALONE, isRelaxed: true, isNear: false }, allowance);
  }

  /** @param bits of the joints that are to be made, in the order of this window */
  cost(bits: number, rows: Uint8Array): WindowCost {
    const kept = [...this.joints.keys()].filter((k) => (bits & (1 << k)) !== 0);
    const own = new Uint8Array(this.joints.length * this.#grades);
    for (const [k, j] of this.joints.entries())
      own.set(rows.subarray(j * this.#grades, (j + 1) * this.#grades), k * this.#grades);
    const found = runToEnd(this.#search.best(this.#sections.sets.of(kept), own, Infinity));
    if (!found) return IMPOSSIBLE;
    const protections = Math.floor(found.cost / ALONE.protection);
    return { protections, rank: found.cost - protections * ALONE.protection };
  }
}

export class Windows {
  readonly #windows: readonly Window[];
  readonly #windowOf: Int16Array;
  readonly #bitOf: Uint8Array;
  readonly #known = new Map<string, WindowCosts>();

  constructor(space: SearchSpace, levelK: number, rows: Uint8Array, allowance: Allowance) {
    // What it takes is counted, but it is never stopped half way: every window is small.
    const unlimited: Allowance = { options: 0, limit: Infinity };
    this.#windows = partition(space, levelK, rows, unlimited).map((joints) => new Window(joints, space, levelK, unlimited));
    allowance.options += unlimited.options;
    this.#windowOf = new Int16Array(space.problem.joints.length);
    this.#bitOf = new Uint8Array(space.problem.joints.length);
    for (const [w, { joints }] of this.#windows.entries()) {
      for (const [k, j] of joints.entries()) {
        this.#windowOf[j] = w;
        this.#bitOf[j] = 1 << k;
      }
    }
  }

  /** @param rows where each joint may only be of the solders it is left, and none has been asked for a protection yet */
  costs(rows: Uint8Array, allowance: Allowance): WindowCosts {
    const key = String.fromCharCode(...rows);
    let costs = this.#known.get(key);
    if (!costs) {
      const known = this.#windows.map((): (WindowCost | undefined)[] => []);
      costs = {
        windowOf: this.#windowOf,
        bitOf: this.#bitOf,
        count: this.#windows.length,
        costOf: (window, bits) => {
          if (bits === 0) return NOTHING;
          let cost = known[window]![bits];
          if (!cost) {
            cost = this.#windows[window]!.cost(bits, rows);
            known[window]![bits] = cost;
            allowance.options += MOST_IN_A_WINDOW;
          }
          return cost;
        },
      };
      this.#known.set(key, costs);
    }
    return costs;
  }
}

/** Joints that cost each other most are put into one window. */
function partition(space: SearchSpace, levelK: number, rows: Uint8Array, allowance: Allowance): number[][] {
  const { joints, grades } = space.problem;
  const gain = (a: number, b: number): number => {
    const window = new Window([a, b], space, levelK, allowance);
    const [both, one, other] = [3, 1, 2].map((bits) => window.cost(bits, rows));
    if (both!.protections === Infinity) return Infinity;
    const protections = both!.protections - one!.protections - other!.protections;
    return protections * ALONE.protection + both!.rank - one!.rank - other!.rank;
  };
  const pairs: { a: number; b: number; gain: number }[] = [];
  for (const a of joints.keys()) {
    let paired = 0;
    for (let b = a + 1; b < joints.length && paired < MOST_PAIRS; b++) {
      if (!joints[a]!.parts.some((part) => joints[b]!.parts.includes(part))) continue;
      paired++;
      pairs.push({ a, b, gain: gain(a, b) });
    }
  }
  pairs.sort((x, y) => y.gain - x.gain || x.a - y.a || x.b - y.b);
  let windows = [...joints.keys()].map((j) => [j]);
  for (const { a, b } of pairs) {
    const [of, other] = [a, b].map((j) => windows.find((window) => window.includes(j))!);
    if (of === other || of!.length + other!.length > MOST_IN_A_WINDOW) continue;
    windows = [...windows.filter((window) => window !== of && window !== other), [...of!, ...other!]];
  }
  return grades.length === 0 ? [] : windows.map((window) => window.sort((x, y) => x - y));
}

/** What all joints cost at least. */
export function wholeCost({ windowOf, bitOf, count, costOf }: WindowCosts): WindowCost {
  const bits = new Uint8Array(count);
  for (const [j, window] of windowOf.entries()) bits[window]! |= bitOf[j]!;
  const whole = { protections: 0, rank: 0 };
  for (const [window, all] of bits.entries()) {
    const { protections, rank } = costOf(window, all);
    whole.protections += protections;
    whole.rank += rank;
  }
  return whole;
}

/**
 * What small sets of joints near to each other cost at least, made alone. Sets that share no joint add up: where more joints in the
 * fire never cool another and more targets never either, a plan of the whole piece, with all other joints struck out of it, is a plan
 * of the set that costs no more.
 */

import type { Allowance } from './allowance.ts';
import type { SearchSpace } from './heat-table.ts';
import { Window, type WindowPrices } from './window.ts';

const MOST_IN_A_WINDOW = 6;
/** Ways to give the joints of a window their solders; fewer where the whole is soon searched. */
const MOST_WAYS = 4096;
const FEWER_WAYS = 640;
const FEW_JOINTS = 8;
/** Joints of the same part that a joint is paired with, in the order of their ids. */
const MOST_PAIRS = 8;

/** By which the joints are told that cost each other most. */
const ALONE = { protection: 1e8, rank: 1 };

/** A partition of all joints, at one margin level. */
export class Windows {
  readonly #windows: readonly Window[];
  readonly #windowOf: Int16Array;
  readonly #bitOf: Uint8Array;
  readonly #bits: Uint8Array;
  readonly #allowance: Allowance;

  constructor(space: SearchSpace, levelK: number, rows: Uint8Array, allowance: Allowance) {
    this.#allowance = allowance;
    this.#windows = partition(space, levelK, rows, allowance).map((joints) => new Window(joints, space, levelK));
    this.#windowOf = new Int16Array(space.problem.joints.length);
    this.#bitOf = new Uint8Array(space.problem.joints.length);
    this.#bits = new Uint8Array(this.#windows.length);
    for (const [w, { joints }] of this.#windows.entries()) {
      for (const [k, j] of joints.entries()) {
        this.#windowOf[j] = w;
        this.#bitOf[j] = 1 << k;
      }
    }
  }

  /**
   * What some joints cost at least; Infinity where they cannot be made.
   *
   * @param rows what is asked of each by heats that do not belong to them
   */
  least(joints: readonly number[], rows: Uint8Array, prices: WindowPrices): number {
    const bits = this.#bits.fill(0);
    for (const j of joints) bits[this.#windowOf[j]!]! |= this.#bitOf[j]!;
    let cost = 0;
    for (let w = 0; w < bits.length && cost < Infinity; w++) {
      if (bits[w] !== 0) cost += this.#windows[w]!.least(bits[w]!, rows, prices, this.#allowance);
    }
    return cost;
  }
}

/** Joints that cost each other most are put into one window. */
function partition(space: SearchSpace, levelK: number, rows: Uint8Array, allowance: Allowance): number[][] {
  const { joints, grades } = space.problem;
  const prices: WindowPrices = { price: ALONE.protection, ranks: grades.map(({ rank }) => rank * ALONE.rank) };
  const gain = (a: number, b: number): number => {
    const window = new Window([a, b], space, levelK);
    const [both, one, other] = [3, 1, 2].map((bits) => window.least(bits, rows, prices, allowance));
    return both === Infinity ? Infinity : both! - one! - other!;
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
  const mostWays = joints.length > FEW_JOINTS ? MOST_WAYS : FEWER_WAYS;
  let most = 2;
  while (most < MOST_IN_A_WINDOW && grades.length ** (most + 1) <= mostWays) most++;
  let windows = [...joints.keys()].map((j) => [j]);
  for (const { a, b } of pairs) {
    const [of, other] = [a, b].map((j) => windows.find((window) => window.includes(j))!);
    if (of === other || of!.length + other!.length > most) continue;
    windows = [...windows.filter((window) => window !== of && window !== other), [...of!, ...other!]];
  }
  return grades.length === 0 ? [] : windows.map((window) => window.sort((x, y) => x - y));
}

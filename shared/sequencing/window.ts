/** A few joints made alone: the fewest protections that they take by the solders they are made with, whatever their order. */

import type { Allowance } from './allowance.ts';
import type { Means } from './heat-oracle.ts';
import { HeatTable, type HeatRecord, type SearchSpace } from './heat-table.ts';
import { type JointSet } from './joint-set.ts';
import { fewestGuards, NEVER } from './protection-caps.ts';
import { windowOracle, windowProblem } from './restricted-problem.ts';
import { Sections, type LastHeat } from './sections.ts';
import type { SequenceProblem } from './sequence-problem.ts';

/** What one protection and the solders cost. */
export interface WindowPrices {
  price: number;
  /** By grade. */
  ranks: readonly number[];
}

interface Group {
  joints: readonly number[];
  table: Uint8Array;
}

/** How far the filling of a table has come. */
interface Place {
  group: number;
  joint: number;
  /** Where the joints of this group begin to count. */
  from: number;
  at: number;
  count: number;
}

export class Window {
  readonly joints: readonly number[];
  readonly #problem: SequenceProblem;
  readonly #sections: Sections;
  readonly #heats: HeatTable;
  readonly #levelK: number;
  readonly #grades: number;
  /** By joint: what a step of one grade is in a place of a table. */
  readonly #strides: readonly number[];
  /** By set of joints, then by their grades: the fewest protections; NEVER where it cannot be done. */
  readonly #tables: (Uint8Array | undefined)[] = [];
  readonly #costs: Float64Array;
  /** Of the joints from one on, what they cost at least. */
  readonly #rest: Float64Array;
  #looked = 0;

  constructor(joints: readonly number[], space: SearchSpace, levelK: number) {
    this.joints = joints;
    this.#problem = windowProblem(space.problem, joints);
    this.#grades = this.#problem.grades.length;
    this.#sections = new Sections(this.#problem);
    this.#heats = new HeatTable(this.#problem, windowOracle(space.problem, space.table.oracle));
    this.#levelK = levelK;
    this.#strides = joints.map((_, k) => this.#grades ** k);
    this.#costs = new Float64Array(joints.length * this.#grades);
    this.#rest = new Float64Array(joints.length + 1);
  }

  /**
   * What some of its joints cost at least; Infinity where they cannot be made.
   *
   * @param bits of the joints, in the order of this window
   * @param rows of all joints of the piece: protections that other heats take of them
   */
  least(bits: number, rows: Uint8Array, { price, ranks }: WindowPrices, allowance: Allowance): number {
    const kept = [...this.joints.keys()].filter((k) => (bits & (1 << k)) !== 0);
    const table = this.#tableOf(this.#sections.sets.of(kept), bits);
    const grades = this.#grades;
    this.#rest[kept.length] = 0;
    for (let i = kept.length - 1; i >= 0; i--) {
      let least = Infinity;
      for (let g = 0; g < grades; g++) {
        const row = rows[this.joints[kept[i]!]! * grades + g]!;
        const cost = row === NEVER ? Infinity : row * price + ranks[g]!;
        this.#costs[kept[i]! * grades + g] = cost;
        if (cost < least) least = cost;
      }
      this.#rest[i] = this.#rest[i + 1]! + least;
    }
    if (this.#rest[0] === Infinity) return Infinity;
    const found = this.#descend(table, kept, price, 0, 0, 0, Infinity);
    allowance.options += this.#looked >> 6;
    this.#looked &= 63;
    return found;
  }

  #descend(table: Uint8Array, kept: readonly number[], price: number, i: number, at: number, cost: number, best: number): number {
    this.#looked++;
    const k = kept[i]!;
    const [stride, from] = [this.#strides[k]!, k * this.#grades];
    const [rest, isLast] = [this.#rest[i + 1]!, i + 1 === kept.length];
    let least = best;
    for (let g = 0; g < this.#grades; g++) {
      const next = cost + this.#costs[from + g]!;
      if (next + rest >= least) continue;
      if (isLast) {
        const protections = table[at + g * stride]!;
        if (protections !== NEVER && next + protections * price < least) least = next + protections * price;
      } else least = this.#descend(table, kept, price, i + 1, at + g * stride, next, least);
    }
    return least;
  }

  #tableOf(joints: JointSet, bits = this.#bitsOf(joints)): Uint8Array {
    let table = this.#tables[bits];
    if (!table) {
      table = new Uint8Array(this.#grades ** this.joints.length).fill(NEVER);
      this.#tables[bits] = table;
      const groups = this.#sections.groups(joints)!;
      if (groups.length === 1) for (const heat of this.#sections.lastHeats(joints)) this.#addHeat(table, heat);
      else {
        const each = groups.map((group) => this.#groupOf(group));
        this.#fill(table, each, null, { group: 0, joint: 0, from: 0, at: 0, count: 0 });
      }
    }
    return table;
  }

  #groupOf(group: JointSet): Group {
    return { joints: group.joints, table: this.#tableOf(group) };
  }

  #bitsOf = ({ joints }: JointSet): number => joints.reduce((bits, k) => bits | (1 << k), 0);

  /** All that comes of a heat made last. */
  #addHeat(table: Uint8Array, heat: LastHeat): void {
    const rest = heat.rest.map((group) => this.#groupOf(group));
    const record = this.#heats.record(heat.component, heat.targets);
    const stride = heat.targets.reduce((sum, k) => sum + this.#strides[k]!, 0);
    for (const set of this.#setsOf(record)) {
      for (let grade = 0; grade < this.#grades; grade++) {
        const asked = this.#askedBy(record, set, grade);
        if (!asked) continue;
        const at = grade * stride;
        this.#fill(table, rest, asked.rows, { group: 0, joint: 0, from: at, at, count: set.length + asked.fixed });
      }
    }
  }

  /** Guards that a heat takes, by joint and grade, and those of what is no open joint; null where it cannot be done. */
  #askedBy(record: HeatRecord, set: readonly Means[], grade: number): { rows: Uint8Array; fixed: number } | null {
    const grades = this.#grades;
    const demands = this.#heats.demands(record, set, grade, this.#levelK);
    if (!demands) return null;
    const rows = new Uint8Array(this.joints.length * grades);
    let fixed = 0;
    for (const [i, { joint, guards }] of record.warmed.entries()) {
      for (let g = 0; g < grades; g++) {
        const need = fewestGuards(demands[i * grades + g]!, guards);
        if (joint >= 0) rows[joint * grades + g] = need;
        else if (need === NEVER) return null;
        else if (g === 0) fixed += need;
      }
    }
    return { rows, fixed };
  }

  /** Notes what earlier groups come to with a later heat, by all grades of their joints, where that is less than what is known. */
  #fill(table: Uint8Array, groups: readonly Group[], rows: Uint8Array | null, place: Place): void {
    const { group, joint, from, at, count } = place;
    if (group === groups.length) {
      if (count < table[at]!) table[at] = count;
      return;
    }
    const { joints, table: own } = groups[group]!;
    if (joint === joints.length) {
      const within = own[at - from]!;
      if (within !== NEVER) this.#fill(table, groups, rows, { group: group + 1, joint: 0, from: at, at, count: count + within });
      return;
    }
    const k = joints[joint]!;
    for (let g = 0; g < this.#grades; g++) {
      const need = rows ? rows[k * this.#grades + g]! : 0;
      if (need !== NEVER)
        this.#fill(table, groups, rows, { group, joint: joint + 1, from, at: at + g * this.#strides[k]!, count: count + need });
    }
  }

  /** No means for the whole section, and each choice of those that are. */
  #setsOf({ sectionMeans }: HeatRecord): (readonly Means[])[] {
    let sets: (readonly Means[])[] = [[]];
    for (const means of sectionMeans) {
      const grown = sets
        .filter((set) => set.length < this.#heats.oracle.sectionMeansTogether)
        .filter((set) => set.filter(({ kind }) => kind === means.kind).length < this.#problem.maxMeans[means.kind])
        .map((set) => [...set, means]);
      sets = [...sets, ...grown];
    }
    return sets;
  }
}

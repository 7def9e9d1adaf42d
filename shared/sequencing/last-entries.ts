/** The last heats of a group that are worth trying, cheapest first; simulated only when their turn comes. */

import type { SectionQuestion, Entry } from './section-question.ts';
import { AllowanceSpent } from './allowance.ts';
import { settle, clamp, narrowness } from './demand-rows.ts';
import { guardCaps, meansKey, type HeatRecord, type SearchSpace } from './heat-table.ts';
import type { Demands } from './heat-demands.ts';
import type { JointSet } from './joint-set.ts';
import { likelyTaken } from './entry-order.ts';
import { LeastFirst } from './least-first.ts';
import { ALL_GUARDS, chooseGuards, fewestGuards, GUARDED_KINDS, NEVER, promises, type GuardCaps } from './protection-caps.ts';
import { priceOf, type Floor } from './section-floor.ts';
import type { LastHeat } from './sections.ts';

export interface Expansion {
  next: () => Entry | null;
  evaluate: (entry: Entry, best: number) => void;
  /** Options looked at since it was last asked. */
  looked: () => number;
}

interface State {
  group: JointSet;
  rows: Uint8Array;
  bound: number;
}

/** Ways to promise the guards of one heat that are looked at. A search that would be exact ends where there are more. */
const FEW_WAYS = 3;
const ALL_WAYS = 5000;

/** Work units up to which a heat is simulated without asking whether it is needed. */
const CHEAP_RUN = 10;

export function entriesOf(space: SearchSpace, question: SectionQuestion, floor: Floor, state: State): Expansion {
  return new Entries(space, question, floor, state);
}

class Entries implements Expansion {
  readonly #space: SearchSpace;
  readonly #question: SectionQuestion;
  readonly #floor: Floor;
  readonly #state: State;
  readonly #price: number;
  readonly #queue = new LeastFirst<Entry>((a, b) => a.least - b.least || a.tie - b.tie);
  readonly #asked = new Map<LastHeat, Set<string>>();
  readonly #done = new Map<LastHeat, Entry[]>();
  #looked = 0;

  constructor(space: SearchSpace, question: SectionQuestion, floor: Floor, state: State) {
    this.#space = space;
    this.#question = question;
    this.#floor = floor;
    this.#state = state;
    this.#price = priceOf(space.problem, question.weights);
    const { sections } = space;
    const heats = question.isNear ? sections.nearHeats(state.group) : sections.lastHeats(state.group);
    for (const heat of heats) if (!this.#hasTwin(heat)) this.#addHeat(heat);
  }

  next(): Entry | null {
    return this.#queue.take();
  }

  looked(): number {
    const count = this.#looked;
    this.#looked = 0;
    return count;
  }

  /** Of joints that may change places, the one listed last is made last. */
  #hasTwin({ targets }: LastHeat): boolean {
    const { problem } = this.#space;
    const { group, rows } = this.#state;
    const grades = problem.grades.length;
    return targets.some((j) => {
      const { kind } = problem.joints[j]!;
      if (kind === undefined) return false;
      return group.joints.some((other) => {
        if (other <= j || problem.joints[other]!.kind !== kind || targets.includes(other)) return false;
        for (let g = 0; g < grades; g++) if (rows[j * grades + g] !== rows[other * grades + g]) return false;
        return true;
      });
    });
  }

  #addHeat(heat: LastHeat): void {
    const { problem, table } = this.#space;
    const { rows, bound } = this.#state;
    const { weights, levelK } = this.#question;
    const grades = problem.grades.length;
    const count = heat.targets.length;
    const rest = heat.rest.reduce((sum, group) => sum + this.#floor(group, rows), 0);
    const { heatS, jointS, partS } = problem.heatTime;
    const seconds = heatS + jointS * count + partS * heat.component.parts.length;
    for (let grade = 0; grade < grades; grade++) {
      this.#looked++;
      let earlier = 0;
      for (const j of heat.targets) {
        const row = rows[j * grades + grade]!;
        earlier = row === NEVER ? Infinity : earlier + row;
      }
      const ownCost =
        weights.heat + weights.rank * problem.grades[grade]!.rank * count + weights.second * seconds + earlier * this.#price;
      const entry: Entry = { heat, grade, set: [], ownCost, least: ownCost + rest, tie: 0, rows: null };
      if (!(entry.least < bound)) continue;
      if (table.oracle.workUnitsPerRun <= CHEAP_RUN) this.evaluate(entry, bound);
      else {
        entry.tie = likelyTaken(this.#space, levelK, rows, entry);
        this.#queue.add(entry);
      }
    }
  }

  evaluate(entry: Entry, best: number): void {
    const { problem, table } = this.#space;
    const { levelK, isRelaxed } = this.#question;
    const record = table.record(entry.heat.component, entry.heat.targets);
    const demands = table.demands(record, entry.set, entry.grade, levelK);
    if (!demands) return;
    const caps = guardCaps(problem, entry.set);
    const lost = this.#withGuards(entry, record, demands, caps, best, isRelaxed);
    if (lost.length > 0) this.#addMeans(entry, record, lost, best);
  }

  /** Adds what the entry leaves to be made; answers what it warms that does not stand it as before. */
  #withGuards(entry: Entry, record: HeatRecord, demands: Demands, caps: GuardCaps, best: number, isRelaxed: boolean): number[] {
    const lost: number[] = [];
    const optimistic = record.warmed.map(({ joint }, i) => {
      const open = this.#openFamilies(joint, demands, i);
      if (open.some((family) => (family & 1) === 0)) lost.push(i);
      return open.reduce((all, family) => all | family, 0);
    });
    const guards = record.warmed.map((warmed) => warmed.guards);
    if (lost.length === 0) {
      this.#add(entry, record, demands, null, best);
      return lost;
    }
    if (!chooseGuards(optimistic, guards, caps)) return lost;
    const affordable = this.#affordable(best, entry.least);
    if (isRelaxed || !this.#canExceed(record, demands, caps, affordable)) this.#add(entry, record, demands, null, best);
    else {
      const items = record.warmed.map(({ joint }, i) => ({
        families: this.#openFamilies(joint, demands, i),
        allowed: guards[i]!,
      }));
      const most = this.#question.isNear ? FEW_WAYS : ALL_WAYS;
      const { ways, isAll } = promises(items, caps, most, () => this.#looked++);
      if (!isAll && !this.#question.isNear) throw new AllowanceSpent();
      for (const allowed of ways) this.#add(entry, record, demands, allowed, best);
    }
    return lost;
  }

  /** Of what is warmed, its families of guards by the solders it may still be of. */
  #openFamilies(joint: number, demands: Demands, i: number): number[] {
    const grades = this.#space.problem.grades.length;
    if (joint < 0) return [demands[i * grades]!];
    const families: number[] = [];
    for (let g = 0; g < grades; g++) if (this.#state.rows[joint * grades + g] !== NEVER) families.push(demands[i * grades + g]!);
    return families;
  }

  /** Whether some choice of solders could ask for more guards of a kind than the heat holds. */
  #canExceed(record: HeatRecord, demands: Demands, caps: GuardCaps, most: number): boolean {
    return GUARDED_KINDS.some((_, kind) => {
      if (most <= caps[kind]!) return false;
      const bit = 1 << kind;
      const asking = record.warmed.filter(
        ({ joint, guards }, i) =>
          (guards & bit) !== 0 && this.#openFamilies(joint, demands, i).some((family) => family !== 0 && (family & 1) === 0),
      );
      return asking.length > caps[kind]!;
    });
  }

  #add(entry: Entry, record: HeatRecord, demands: Demands, allowed: readonly number[] | null, best: number): void {
    const { problem } = this.#space;
    const grades = problem.grades.length;
    const rows = this.#state.rows.slice();
    this.#looked += 1 + (problem.joints.length >> 4);
    let fixed = 0;
    for (const [i, { joint, guards }] of record.warmed.entries()) {
      const may = allowed ? allowed[i]! : guards & ALL_GUARDS;
      if (joint < 0) {
        const need = fewestGuards(demands[i * grades]!, may);
        if (need === NEVER) return;
        fixed += need;
        continue;
      }
      for (let g = 0; g < grades; g++) {
        const at = joint * grades + g;
        if (rows[at] !== NEVER) rows[at] = Math.min(NEVER, rows[at]! + fewestGuards(demands[i * grades + g]!, may));
      }
    }
    const joints = entry.heat.rest.flatMap((group) => group.joints);
    const base = settle(rows, joints, grades, this.#price);
    if (base === null) return;
    const ownCost = entry.ownCost + fixed * this.#price + base;
    let least = ownCost;
    for (const group of entry.heat.rest) least += this.#floor(group, rows);
    if (least >= best) return;
    // Only where the floor counts nothing of what is asked for may the whole of a demand be added to it.
    const simple = entry.heat.rest.reduce((sum, group) => sum + this.#floor(group, rows, true), ownCost);
    clamp(rows, joints, grades, this.#affordable(best, simple));
    const evaluated = { ...entry, ownCost, least, rows, tie: entry.set.length + narrowness(rows, joints, grades) };
    if (this.#isBeaten(evaluated, joints, grades)) return;
    this.#queue.add(evaluated);
  }

  /** Protections that can still be paid for beyond a cost; a better rank may pay for a little. */
  #affordable(best: number, least: number): number {
    const { rank } = this.#question.weights;
    const left = best - 1 - least + rank * this.#space.problem.grades.at(-1)!.rank;
    return this.#price > 0 ? Math.floor(left / this.#price) : NEVER;
  }

  /** Whether the same joints, made last with another solder or other means, cost no more and ask no more of any joint before them. */
  #isBeaten(entry: Entry, joints: readonly number[], grades: number): boolean {
    const done = this.#done.get(entry.heat) ?? [];
    this.#done.set(entry.heat, done);
    const isBeatenBy = (other: Entry): boolean => {
      if (other.ownCost > entry.ownCost) return false;
      return joints.every((j) => {
        for (let at = j * grades; at < (j + 1) * grades; at++) if (other.rows![at]! > entry.rows![at]!) return false;
        return true;
      });
    };
    if (done.some(isBeatenBy)) return true;
    done.push(entry);
    return false;
  }

  /** The same heat with one more of the means that change the whole section, for something that does not stand it as it is. */
  #addMeans(entry: Entry, record: HeatRecord, lost: readonly number[], best: number): void {
    const { problem, table } = this.#space;
    if (entry.set.length >= table.oracle.sectionMeansTogether) return;
    const asked = this.#asked.get(entry.heat) ?? new Set<string>();
    this.#asked.set(entry.heat, asked);
    const losing = new Set(lost.map((i) => record.warmed[i]!.id));
    for (const means of record.sectionMeans) {
      if (entry.set.includes(means) || !(losing.has(means.guards) || means.guards === '')) continue;
      if (entry.set.filter(({ kind }) => kind === means.kind).length >= problem.maxMeans[means.kind]) continue;
      const set = record.sectionMeans.filter((each) => each === means || entry.set.includes(each));
      const key = `${entry.grade}#${meansKey(set)}`;
      if (asked.has(key)) continue;
      asked.add(key);
      this.#looked++;
      const ownCost = entry.ownCost + this.#price;
      const rest = entry.heat.rest.reduce((sum, group) => sum + this.#floor(group, this.#state.rows), 0);
      const grown: Entry = { ...entry, set, ownCost, least: ownCost + rest, tie: entry.tie + 1, rows: null };
      if (grown.least >= best) continue;
      if (table.oracle.workUnitsPerRun <= CHEAP_RUN) this.evaluate(grown, best);
      else this.#queue.add(grown);
    }
  }
}

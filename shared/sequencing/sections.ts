/** How the joints made so far hang together, and which heats may come last. */

import { bitsOf, countBits, type SequenceProblem } from './sequence-problem.ts';

/** Joints and parts that hang together. */
export interface Component {
  /** Mask of its open joints. */
  joints: number;
  made: readonly string[];
  parts: readonly string[];
}

/** A heat that may come last among the joints of a set. */
export interface LastHeat {
  targets: number;
  component: Component;
  /** What is left to be made before it: sets of joints that do not touch each other's heats, in an order that keeps the rules. */
  rest: readonly number[];
}

export class Sections {
  readonly #problem: SequenceProblem;
  readonly #components = new Map<number, Component[]>();
  readonly #lastHeats = new Map<number, LastHeat[]>();

  constructor(problem: SequenceProblem) {
    this.#problem = problem;
  }

  /** The components that hold open joints of the set, all existing joints and loose contacts being there as well. */
  components(joints: number): readonly Component[] {
    let found = this.#components.get(joints);
    if (!found) {
      found = this.#findComponents(joints);
      this.#components.set(joints, found);
    }
    return found;
  }

  /**
   * Splits a set of joints into groups whose heats can be ordered one group after the other. A group is one component, or several
   * that the order rules tie together both ways; null when joints that go into one heat are torn apart.
   */
  groups(joints: number): readonly number[] | null {
    const components = this.components(joints).map((component) => component.joints);
    for (const together of this.#problem.together) {
      if ((together & joints) !== 0 && !components.some((component) => (together & component) === together)) return null;
    }
    const reach = components.map((from) => this.#laterThan(from, components));
    const groups: number[] = [];
    const others = (i: number): number => reach[i]!.size - Number(reach[i]!.has(i));
    const order = components.map((_, i) => i).sort((a, b) => others(b) - others(a) || a - b);
    const placed = new Set<number>();
    for (const i of order) {
      if (placed.has(i)) continue;
      const tied = order.filter((k) => k === i || (reach[i]!.has(k) && reach[k]!.has(i)));
      for (const k of tied) placed.add(k);
      groups.push(tied.reduce((mask, k) => mask | components[k]!, 0));
    }
    return groups;
  }

  /** Every heat that may come last among these joints (one group), larger heats first. */
  lastHeats(joints: number): readonly LastHeat[] {
    let found = this.#lastHeats.get(joints);
    if (!found) {
      found = this.#findLastHeats(joints);
      this.#lastHeats.set(joints, found);
    }
    return found;
  }

  #laterThan(from: number, components: readonly number[]): Set<number> {
    const later = new Set<number>();
    const open = [from];
    while (open.length > 0) {
      const successors = bitsOf(open.pop()!).reduce((mask, j) => mask | this.#problem.after[j]!, 0);
      for (const [k, component] of components.entries()) {
        if ((component & successors) !== 0 && !later.has(k)) {
          later.add(k);
          open.push(component);
        }
      }
    }
    return later;
  }

  #findComponents(joints: number): Component[] {
    const { made, parts, contacts = [] } = this.#problem;
    const leader = new Map(parts.map(({ id }) => [id, id]));
    const find = (id: string): string => {
      let root = id;
      while (leader.get(root)! !== root) root = leader.get(root)!;
      leader.set(id, root);
      return root;
    };
    const open = bitsOf(joints);
    const joined = [...open.map((j) => this.#problem.joints[j]!), ...made].map(({ parts: ends }) => ends);
    for (const [a, b] of [...joined, ...contacts]) leader.set(find(a), find(b));
    const byRoot = new Map<string, { joints: number; made: string[]; parts: string[] }>();
    for (const j of open) {
      const root = find(this.#problem.joints[j]!.parts[0]);
      const component = byRoot.get(root) ?? { joints: 0, made: [], parts: [] };
      component.joints |= 1 << j;
      byRoot.set(root, component);
    }
    for (const joint of made) byRoot.get(find(joint.parts[0]))?.made.push(joint.id);
    for (const { id } of parts) byRoot.get(find(id))?.parts.push(id);
    return [...byRoot.values()];
  }

  #findLastHeats(joints: number): LastHeat[] {
    const { after, apart, together, maxJointsPerHeat } = this.#problem;
    const heats: LastHeat[] = [];
    for (const component of this.components(joints)) {
      const eligible = bitsOf(component.joints).filter((j) => (after[j]! & joints) === 0);
      const grow = (from: number, targets: number, forbidden: number): void => {
        if (targets !== 0) this.#addLastHeat(joints, component, targets, heats);
        if (countBits(targets) === maxJointsPerHeat) return;
        for (let k = from; k < eligible.length; k++) {
          const j = eligible[k]!;
          if ((forbidden & (1 << j)) === 0) grow(k + 1, targets | (1 << j), forbidden | apart[j]!);
        }
      };
      grow(0, 0, 0);
    }
    const complete = heats.filter(({ targets }) =>
      together.every((group) => (group & targets) === 0 || (group & targets) === group),
    );
    return complete.sort((a, b) => countBits(b.targets) - countBits(a.targets) || a.targets - b.targets);
  }

  #addLastHeat(joints: number, component: Component, targets: number, heats: LastHeat[]): void {
    if (!this.#leavesVents(component, targets)) return;
    const rest = this.groups(joints & ~targets);
    if (rest) heats.push({ targets, component, rest });
  }

  /** A hollow form without a vent is closed by its last joint; after that it is never in the fire. */
  #leavesVents(component: Component, targets: number): boolean {
    return this.#problem.parts.every(({ id, closes }) => {
      if (!closes || !component.parts.includes(id)) return true;
      const own = this.#problem.joints.reduce((mask, { parts }, j) => (parts.includes(id) ? mask | (1 << j) : mask), 0);
      return (own & component.joints) !== own || (own & targets) !== 0;
    });
  }
}

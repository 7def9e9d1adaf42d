/** How the joints made so far hang together, and which heats may come last. */

import { hasJoint, JointSets, type JointSet } from './joint-set.ts';
import type { SequenceProblem } from './sequence-problem.ts';
import { targetSets } from './target-sets.ts';

/** Joints and parts that hang together. */
export interface Component {
  /** Its open joints. */
  joints: JointSet;
  made: readonly string[];
  parts: readonly string[];
}

/** A heat that may come last among the joints of a set. */
export interface LastHeat {
  targets: readonly number[];
  component: Component;
  /** What is left to be made before it: sets of joints that do not touch each other's heats, in an order that keeps the rules. */
  rest: readonly JointSet[];
}

export class Sections {
  readonly problem: SequenceProblem;
  readonly sets: JointSets;
  /** Last heats laid out so far. */
  laidOut = 0;
  readonly #components = new Map<number, Component[]>();
  readonly #lastHeats = new Map<number, LastHeat[]>();
  readonly #nearHeats = new Map<number, LastHeat[]>();
  readonly #ends: readonly (readonly [number, number])[];
  readonly #madeEnds: readonly number[];
  /** Parts that hang together before any open joint is made share a leader. */
  readonly #leader: Int16Array;
  readonly #isOrdered: boolean;

  /** @param sets shared by problems of the same joints */
  constructor(problem: SequenceProblem, sets = new JointSets()) {
    this.problem = problem;
    this.sets = sets;
    const index = new Map(problem.parts.map(({ id }, i) => [id, i]));
    const at = ([a, b]: readonly [string, string]): [number, number] => [index.get(a)!, index.get(b)!];
    this.#ends = problem.joints.map(({ parts }) => at(parts));
    this.#madeEnds = problem.made.map(({ parts }) => at(parts)[0]);
    this.#leader = Int16Array.from(problem.parts, (_, i) => i);
    for (const ends of [...problem.made.map(({ parts }) => parts), ...(problem.contacts ?? [])]) join(this.#leader, ...at(ends));
    this.#isOrdered = problem.after.some((later) => later.length > 0);
  }

  get all(): JointSet {
    return this.sets.of(this.problem.joints.keys());
  }

  /** The components that hold open joints of the set, all existing joints and loose contacts being there as well. */
  components(joints: JointSet): readonly Component[] {
    let found = this.#components.get(joints.id);
    if (!found) {
      found = this.#findComponents(joints);
      this.#components.set(joints.id, found);
    }
    return found;
  }

  /** The component that a joint of the set is in. */
  componentOf(joints: JointSet, joint: number): Component {
    return this.components(joints).find((component) => hasJoint(component.joints, joint))!;
  }

  /**
   * Splits a set of joints into groups whose heats can be ordered one group after the other. A group is one component, or several
   * that the order rules tie together both ways; null when joints that go into one heat are torn apart.
   */
  groups(joints: JointSet): readonly JointSet[] | null {
    const components = this.components(joints).map((component) => component.joints);
    for (const together of this.problem.together) {
      if (!together.some((j) => hasJoint(joints, j))) continue;
      if (!components.some((component) => together.every((j) => hasJoint(component, j)))) return null;
    }
    if (!this.#isOrdered || components.length < 2) return components;
    const reach = components.map((from) => this.#laterThan(from, components));
    const groups: JointSet[] = [];
    const others = (i: number): number => reach[i]!.size - Number(reach[i]!.has(i));
    const order = components.map((_, i) => i).sort((a, b) => others(b) - others(a) || a - b);
    const placed = new Set<number>();
    for (const i of order) {
      if (placed.has(i)) continue;
      const tied = order.filter((k) => k === i || (reach[i]!.has(k) && reach[k]!.has(i)));
      for (const k of tied) placed.add(k);
      groups.push(tied.length === 1 ? components[i]! : this.sets.of(tied.flatMap((k) => components[k]!.joints)));
    }
    return groups;
  }

  /** Every heat that may come last among these joints (one group), larger heats first. */
  lastHeats(joints: JointSet): readonly LastHeat[] {
    return this.#heats(joints, this.#lastHeats, false);
  }

  /** The same, of several joints only those near to each other. */
  nearHeats(joints: JointSet): readonly LastHeat[] {
    return this.#heats(joints, this.#nearHeats, true);
  }

  #heats(joints: JointSet, known: Map<number, LastHeat[]>, isNear: boolean): LastHeat[] {
    let found = known.get(joints.id);
    if (!found) {
      found = this.components(joints).flatMap((component) =>
        targetSets(this.problem, joints, component.joints, isNear)
          .filter((targets) => this.#leavesVents(component, targets))
          .flatMap((targets): LastHeat[] => {
            const rest = this.groups(this.sets.without(joints, targets));
            return rest ? [{ targets, component, rest }] : [];
          }),
      );
      this.laidOut += found.length;
      found.sort((a, b) => b.targets.length - a.targets.length);
      known.set(joints.id, found);
    }
    return found;
  }

  #laterThan(from: JointSet, components: readonly JointSet[]): Set<number> {
    const later = new Set<number>();
    const open = [from];
    while (open.length > 0) {
      const successors = open.pop()!.joints.flatMap((j) => this.problem.after[j]!);
      for (const [k, component] of components.entries()) {
        if (!later.has(k) && successors.some((j) => hasJoint(component, j))) {
          later.add(k);
          open.push(component);
        }
      }
    }
    return later;
  }

  #findComponents(joints: JointSet): Component[] {
    const { made, parts } = this.problem;
    const leader = this.#leader.slice();
    for (const j of joints.joints) join(leader, ...this.#ends[j]!);
    const byRoot = new Map<number, { joints: number[]; made: string[]; parts: string[] }>();
    for (const j of joints.joints) {
      const root = rootOf(leader, this.#ends[j]![0]);
      const component = byRoot.get(root);
      if (component) component.joints.push(j);
      else byRoot.set(root, { joints: [j], made: [], parts: [] });
    }
    for (const [i, { id }] of made.entries()) byRoot.get(rootOf(leader, this.#madeEnds[i]!))?.made.push(id);
    for (const [i, { id }] of parts.entries()) byRoot.get(rootOf(leader, i))?.parts.push(id);
    return [...byRoot.values()].map((each) => ({ ...each, joints: this.sets.of(each.joints) }));
  }

  /** A hollow form without a vent is closed by its last joint; after that it is never in the fire. */
  #leavesVents(component: Component, targets: readonly number[]): boolean {
    return this.problem.parts.every(({ id, closes }) => {
      if (!closes || !component.parts.includes(id)) return true;
      const own = [...this.problem.joints.keys()].filter((j) => this.problem.joints[j]!.parts.includes(id));
      return own.some((j) => targets.includes(j)) || !own.every((j) => hasJoint(component.joints, j));
    });
  }
}

function rootOf(leader: Int16Array, of: number): number {
  let root = of;
  while (leader[root] !== root) root = leader[root]!;
  leader[of] = root;
  return root;
}

function join(leader: Int16Array, a: number, b: number): void {
  leader[rootOf(leader, a)] = rootOf(leader, b);
}

/** Sets of open joints, each kept once, so that equal sets are the same object and have a short name. */

export interface JointSet {
  readonly id: number;
  /** Rising. */
  readonly joints: readonly number[];
  /** A bit for each joint; three words tell 96 apart. */
  readonly words: readonly [number, number, number];
}

export const hasJoint = ({ words }: JointSet, j: number): boolean => ((words[j >> 5]! >>> (j & 31)) & 1) === 1;

export class JointSets {
  readonly #known = new Map<string, JointSet>();

  of(joints: Iterable<number>): JointSet {
    const words: [number, number, number] = [0, 0, 0];
    for (const j of joints) words[j >> 5]! |= 1 << (j & 31);
    return this.#intern(words);
  }

  without({ words: [a, b, c] }: JointSet, joints: readonly number[]): JointSet {
    const words: [number, number, number] = [a, b, c];
    for (const j of joints) words[j >> 5]! &= ~(1 << (j & 31));
    return this.#intern(words);
  }

  #intern(words: [number, number, number]): JointSet {
    const key = `${words[0]},${words[1]},${words[2]}`;
    let set = this.#known.get(key);
    if (!set) {
      const joints: number[] = [];
      for (let w = 0; w < 3; w++) {
        for (let rest = words[w]!; rest !== 0; rest &= rest - 1) joints.push(32 * w + 31 - Math.clz32(rest & -rest));
      }
      set = { id: this.#known.size, joints, words };
      this.#known.set(key, set);
    }
    return set;
  }
}

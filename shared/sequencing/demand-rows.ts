/** What later heats ask of the joints before them, row by row. */

import type { JointSet } from './joint-set.ts';
import { NEVER } from './protection-caps.ts';

/** By joint and grade: protections that later heats take of it; NEVER where it cannot be of that grade. */
export type Rows = Uint8Array;

/**
 * Takes what a joint costs with any of its solders out of its row, and says what that is in all; null where one is left without a
 * solder. Where protections cost nothing, all that can be done is free.
 */
export function settle(rows: Rows, joints: readonly number[], grades: number, price: number): number | null {
  let count = 0;
  for (const j of joints) {
    let least = NEVER;
    for (let at = j * grades; at < (j + 1) * grades; at++) least = Math.min(least, rows[at]!);
    if (least === NEVER) return null;
    if (price === 0) {
      for (let at = j * grades; at < (j + 1) * grades; at++) if (rows[at] !== NEVER) rows[at] = 0;
    } else if (least > 0) {
      count += least;
      for (let at = j * grades; at < (j + 1) * grades; at++) if (rows[at] !== NEVER) rows[at]! -= least;
    }
  }
  return count * price;
}

/** A group with what later heats ask of it, as a text. */
export function keyOf({ id, joints }: JointSet, rows: Rows, grades: number): string {
  let text = String.fromCharCode(id & 0xffff, id >>> 16);
  for (const j of joints) {
    for (let at = j * grades; at < (j + 1) * grades; at++) text += String.fromCharCode(rows[at]!);
  }
  return text;
}

/** What takes more protections than are left to be spent is as good as impossible. */
export function clamp(rows: Uint8Array, joints: readonly number[], grades: number, most: number): void {
  for (const j of joints) {
    for (let at = j * grades; at < (j + 1) * grades; at++) if (rows[at]! > most) rows[at] = NEVER;
  }
}

/** The less choice joints are left without a protection, the more. */
export function narrowness(rows: Uint8Array, joints: readonly number[], grades: number): number {
  let narrow = 0;
  for (const j of joints) {
    let free = 0;
    for (let g = 0; g < grades; g++) if (rows[j * grades + g] === 0) free++;
    narrow += 1 / free;
  }
  return narrow;
}

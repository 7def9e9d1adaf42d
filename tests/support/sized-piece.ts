/** Pieces of a kind and size drawn from a seed, for the surrogate law: every solder, every protection, no rules but what a kind is. */

import type { SurrogateJoint, SurrogatePiece } from '../../src/cases/surrogate-piece.ts';
import { GRADES, randomFrom } from './random-piece.ts';

export const PIECE_KINDS = ['chain', 'tree', 'ring', 'star', 'prongs', 'mixed'] as const;
export type PieceKind = (typeof PIECE_KINDS)[number];

/**
 * `chain`: one after the other. `tree`: each on any part before it. `ring`: two thirds of the joints close a ring, the rest hang on it.
 * `star`: unlike prongs on one plate. `prongs`: the same with prongs that are all alike. `mixed`: a tree with rings that close on
 * themselves, a joint that exists, limited parts and rules.
 */
export function sizedPiece(kind: PieceKind, count: number, seed: number): SurrogatePiece {
  const random = randomFrom(seed * 1009 + count * 31 + PIECE_KINDS.indexOf(kind));
  const whole = (n: number): number => Math.floor(random() * n);
  const arm = (from: number, to: number): number => Math.round(10 * (from + random() * (to - from))) / 10;
  const ringOf = Math.max(3, Math.round((2 * count) / 3));
  const alike = { la: arm(8, 20), lb: arm(2, 6) };
  const joints = Array.from({ length: count }, (_, i): SurrogateJoint => {
    const id = `J${String(i).padStart(2, '0')}`;
    const own = { id, la: arm(3, 14), lb: arm(3, 14), mass: arm(3, 20) };
    const on = { chain: i, tree: whole(i + 1), ring: i < ringOf ? i : whole(ringOf), star: 0, prongs: 0, mixed: whole(i + 1) }[
      kind
    ];
    if (kind === 'prongs') return { ...own, a: 'P0', b: `P${i + 1}`, ...alike, mass: 4 };
    if (kind === 'ring' && i === ringOf - 1) return { ...own, a: `P${i}`, b: 'P0' };
    const closes = kind === 'mixed' && random() < 0.15;
    const isDone = kind === 'mixed' && count > 4 && i === count - 1;
    return { ...own, a: `P${on}`, b: closes ? `P${on}` : `P${i + 1}`, ...(isDone ? { doneSolidus: 700 } : {}) };
  });
  const rules = kind === 'mixed' && count >= 8;
  return {
    id: `${kind}-${count}-${seed}`,
    thermal: { tAmb: 25, superheat: 10, phi: 'sech', L: 45 },
    margin: { min: 0, cap: 30, step: 5 },
    maxJointsPerHeat: 1 + (seed % 3),
    protections: {
      sink: { factor: 0.85, max: 2, minDist: 8 },
      shield: { factor: 0.93, max: 2 },
      antiflow: { extraK: 12, max: 2 },
      flame: { factor: 0.97 },
    },
    grades: GRADES,
    stock: {},
    minFineness: 0,
    baseMargin: 0,
    parts: Array.from({ length: count + 1 }, (_, i) => ({
      id: `P${i}`,
      baseSolidus: 802,
      ...(kind === 'mixed' && i > 0 && i % 9 === 0 ? { tMax: 780 } : {}),
    })),
    joints,
    before: rules ? [['J01', 'J05']] : [],
    same: [],
    notSame: rules ? [['J02', 'J04']] : [],
  };
}

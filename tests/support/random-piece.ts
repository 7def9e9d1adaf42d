/** Small pieces drawn at random from a seed: hot clusters, chains and rings, with every kind of rule now and then. */

import type { SurrogatePiece } from '../../src/cases/surrogate-piece.ts';

/** Mulberry32. */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

export const GRADES = [
  { id: 'XH', solidus: 740, liquidus: 800, fineness: 800, rank: 0 },
  { id: 'H', solidus: 745, liquidus: 788, fineness: 750, rank: 1 },
  { id: 'M', solidus: 691, liquidus: 738, fineness: 700, rank: 2 },
  { id: 'E', solidus: 672, liquidus: 718, fineness: 650, rank: 3 },
  { id: 'XE', solidus: 618, liquidus: 652, fineness: 560, rank: 4 },
];

export function randomPiece(seed: number, count: number): SurrogatePiece {
  const random = randomFrom(seed);
  const chance = (p: number): boolean => random() < p;
  const whole = (n: number): number => Math.floor(random() * n);
  const arm = (): number => Math.round(random() ** 2 * 200 + 10) / 10;
  const parts = Array.from({ length: count + 1 }, (_, i) => ({
    id: `P${i}`,
    baseSolidus: chance(0.1) ? 779 : 802,
    ...(chance(0.1) ? { tMax: 500 + whole(250) } : {}),
  }));
  const grades = GRADES.filter((_, i) => i === 1 || chance(0.75));
  const joints = Array.from({ length: count }, (_, i) => ({
    id: `J${i}`,
    a: chance(0.1) ? `P${i + 1}` : `P${chance(0.5) ? 0 : whole(i + 1)}`,
    b: chance(0.1) ? 'P0' : `P${i + 1}`,
    la: arm(),
    lb: arm(),
    mass: Math.round(random() * 100) / 10,
    ...(chance(0.08) ? { fixed: GRADES[whole(5)]!.id } : {}),
    ...(chance(0.12) ? { excluded: [GRADES[whole(5)]!.id] } : {}),
    ...(chance(0.1) ? (chance(0.5) ? { done: grades[whole(grades.length)]!.id } : { doneSolidus: 640 + whole(100) }) : {}),
  }));
  const pair = (): [string, string] => {
    const i = whole(count);
    return [`J${i}`, `J${(i + 1 + whole(count - 1)) % count}`];
  };
  const open = (ids: readonly string[]): boolean =>
    ids.every((id) => !joints.some((joint) => joint.id === id && ('done' in joint || 'doneSolidus' in joint)));
  const rules = (p: number): [string, string][] => (chance(p) ? [pair()].filter(open) : []);
  return {
    id: `random-${seed}`,
    thermal: { tAmb: 25, superheat: 10, phi: chance(0.8) ? 'sech' : 'exp', L: 25 + whole(50) },
    margin: { min: 0, cap: 30, step: 5 },
    maxJointsPerHeat: 1 + whole(3),
    ...(chance(0.2) ? { maxSpread: 10 + whole(30) } : {}),
    protections: {
      ...(chance(0.6) ? { sink: { factor: 0.85, max: 1 + whole(2), minDist: 8 } } : {}),
      ...(chance(0.6) ? { shield: { factor: 0.93, max: 1 + whole(2) } } : {}),
      ...(chance(0.6) ? { antiflow: { extraK: 12, max: 1 + whole(2) } } : {}),
      ...(chance(0.6) ? { flame: { factor: 0.97 } } : {}),
    },
    grades,
    stock: chance(0.3) ? { [GRADES[whole(5)]!.id]: whole(15) } : {},
    minFineness: chance(0.1) ? 650 : 0,
    baseMargin: 0,
    parts,
    joints,
    before: [...rules(0.3), ...rules(0.3)],
    same: chance(0.12) ? [pair()].filter(open) : [],
    notSame: rules(0.15),
  };
}

/** The plain form of a sequencing question: joints and grades by index, sets of grades as bit masks. */

import type { MeansKind } from './heat-oracle.ts';

export interface SequenceGrade {
  id: string;
  /** 0 for the most preferred; grades are listed by rank. */
  rank: number;
  /** Grams that may be used; Infinity: no limit. */
  availableG: number;
}

/** Up to which temperature a joint holds, once made with a certain solder. */
export interface JointLimit {
  limitC: number;
  /** With anti-flow on it; null where anti-flow does not count. */
  held: { limitC: number; secondsOverC: number; budgetS: number } | null;
}

export interface SequenceJoint {
  id: string;
  parts: readonly [string, string];
  /** Mask of the grades it may be made with. */
  allowed: number;
  /** By grade. */
  limits: readonly JointLimit[];
  /** Grams of each grade it takes. */
  needG: readonly number[];
  /** Joints of one kind may change places in any plan without a difference to it; absent: it is one of its own. */
  kind?: number | undefined;
}

export interface SequenceMade {
  id: string;
  parts: readonly [string, string];
  limit: JointLimit;
}

export interface SequencePart {
  id: string;
  /** Its own limit; counts toward the margin level. Infinity: none. */
  limitC: number;
  /** A hollow form that has no vent left once its last joint is made. */
  closes: boolean;
}

/** Hands-on seconds of a heat: so many each time, and for each joint made, part in the fire and protection. Whole numbers. */
export interface HeatTime {
  heatS: number;
  jointS: number;
  partS: number;
  protectionS: number;
}

export interface SequenceProblem {
  /** At most MOST_OPEN_JOINTS, by id. */
  joints: readonly SequenceJoint[];
  made: readonly SequenceMade[];
  parts: readonly SequencePart[];
  /** Parts that touch without a joint and are in the fire together from the start. */
  contacts?: readonly (readonly [string, string])[];
  grades: readonly SequenceGrade[];
  /** By joint: the joints that must be made in a later heat. */
  after: readonly (readonly number[])[];
  /** Joints that go into one heat together. */
  together: readonly (readonly number[])[];
  /** By joint: the joints that never share its heat. */
  apart: readonly (readonly number[])[];
  maxJointsPerHeat: number;
  /** Most protections of a kind in one heat; 0: not available. */
  maxMeans: Readonly<Record<MeansKind, number>>;
  margin: { leastK: number; targetK: number; stepK: number };
  heatTime: HeatTime;
}

export function bitsOf(mask: number): number[] {
  const bits: number[] = [];
  for (let rest = mask; rest !== 0; rest &= rest - 1) bits.push(31 - Math.clz32(rest & -rest));
  return bits;
}

export function countBits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count++;
  return count;
}

/** Open joints that a search takes. */
export const MOST_OPEN_JOINTS = 80;

/** Rounding noise allowed when a margin is compared with a level. K. */
export const MARGIN_TOLERANCE_K = 1e-9;

/** Rounding noise allowed when what a plan takes of a solder is compared with what there is. */
export const GRAM_TOLERANCE = 1e-9;

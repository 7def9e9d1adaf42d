/** What a search of one section is asked, and the last heats it weighs against each other. */

import type { Means } from './heat-oracle.ts';
import type { LastHeat } from './sections.ts';

/** How a plan is priced: whole numbers, added up over its heats. */
export interface Weights {
  protection: number;
  heat: number;
  /** A joint, times the rank of its grade. */
  rank: number;
  second: number;
}

export interface SectionQuestion {
  levelK: number;
  weights: Weights;
  /** Whether the number of guards that one heat holds is left out: what is found may then need more than it holds. */
  isRelaxed: boolean;
  /** Whether several joints of a heat are only ever near to each other, and few ways to promise guards are looked at. */
  isNear: boolean;
}

/** A last heat with a solder and means for the whole section; what it leaves to be made once it is evaluated. */
export interface Entry {
  heat: LastHeat;
  grade: number;
  set: readonly Means[];
  ownCost: number;
  /** No plan with this last heat costs less. */
  least: number;
  /** Among equals: how little it leaves to choose. */
  tie: number;
  /** What the rest is asked for; null until simulated. */
  rows: Uint8Array | null;
}

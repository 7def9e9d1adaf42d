/** One thing that a maker may give up, buy or do otherwise, and what it asks of them. */

import type { DesignQuestion } from './design-problem.ts';
import type { RelaxationChange } from './plan-search-request.ts';

export interface Loosening {
  /** Once one of a kind does, the dearer ones of it need not be tried. */
  kind: string;
  /** How much it asks of the maker, beside the others. Judgement, no source. */
  price: number;
  change: RelaxationChange;
  says: string;
  loosen: (question: DesignQuestion) => DesignQuestion;
}

/** Need not be tried where one of them alone does. */
export const EVERY_PROTECTION = 'every protection';

/** From what is at hand, through a rule of one's own given up and what is bought, to work done twice or not soldered at all. */
export const PRICE = {
  protection: 1,
  nearerSink: 1,
  moreProtections: 2,
  support: 2,
  allProtections: 3,
  oneMoreJoint: 3,
  soften: 4,
  torch: 4,
  unloaded: 4,
  spread: 4,
  twoMoreJoints: 5,
  group: 5,
  stock: 5,
  order: 6,
  solderRule: 6,
  otherSolder: 7,
  vent: 8,
  fineness: 9,
  limit: 10,
  madeAgain: 11,
  cold: 12,
} as const;

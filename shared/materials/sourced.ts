/** How far a printed value may be trusted. */
export type Standing =
  /** Seen in a copy of the named source. */
  | 'found'
  /** Recalled from the trade or a handbook and not looked up again. */
  | 'memory'
  /** Computed from other values, as the source says. */
  | 'derived'
  /** Chosen for the model; the source says between what. */
  | 'judgement';

/** A value of a table of materials, and what stands behind it. */
export interface Sourced<T = number> {
  value: T;
  source: string;
  standing: Standing;
}

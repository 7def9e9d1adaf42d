/** The levels of the objective, and what is known of each. */

export const LEVELS = ['margin', 'protections', 'heats', 'grades', 'preference', 'time'] as const;
export type LevelName = (typeof LEVELS)[number];

export interface Proof {
  level: LevelName;
  value: number | null;
  /** No plan does better than this at this level, those before it being kept; null where nothing is known. */
  bound: number | null;
  proven: boolean;
  /** Whether the bound rests on a rule of thumb. */
  heuristic: boolean;
}

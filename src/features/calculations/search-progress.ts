import type { Proof } from '../../../shared/sequencing/levels.ts';
import type { Policy } from '../../../shared/sequencing/plan-search-request.ts';

/** How far a search is. */
export interface SearchProgress {
  workUnits: number;
  workUnitsAllowed: number;
  thermalRuns: number;
  /** Since it began; what it waited before does not count. */
  elapsedMs: number;
  /** The best plan so far: what each level of the objective is worth, and what it could still be. */
  best: { policy: Policy; levels: Proof[] } | null;
}

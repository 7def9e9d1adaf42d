/** What a search for a plan is asked, and what it answers. */

import type { Design } from '../design/design.ts';
import type { Bench, Heat, Plan, Support, TorchPreset } from '../design/plan.ts';
import type { Solder } from '../design/solder.ts';
import type { PlanCheck } from './plan-check-answer.ts';
import type { MeansKind } from './heat-oracle.ts';
import type { LevelName, Proof } from './levels.ts';

/** What pulls on nothing may soften, but never run, under `do_not_run`; under `stay_solid` no earlier joint softens. */
export type Policy = 'stay_solid' | 'do_not_run';

export interface ProtectionOption {
  kind: MeansKind;
  /** 1 when absent. */
  maxPerHeat?: number;
  /** From every target to the joint that is guarded, along the metal. 0 when absent, 8 for a sink. */
  leastDistanceMm?: number;
}

export interface PlanSearchOptions {
  /** both when absent. */
  policy?: Policy | 'both';
  /** Kelvin beyond the uncertainty at which more margin is worth nothing. 10 when absent. */
  targetMarginK?: number;
  /** Highest-melting grades before fewest grades. */
  preferHigherGrades?: boolean;
  /** Protections that may be used; none when absent. */
  protections?: readonly ProtectionOption[];
  /** Options looked at, plus 500 a heat simulated. */
  workUnits?: number;
  /** A safety net beside the work units; needs a clock from the host. */
  timeMs?: number;
  /** Level after which no more is proven. time when absent. */
  stopAt?: LevelName;
  /** Heats that are done: the first ones of the plan, not to be changed. */
  keep?: readonly Heat[];
}

export interface PlanSearchRequest {
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
  options?: PlanSearchOptions;
}

export interface Conflict {
  joints: string[];
  rules: string[];
  says: string;
}

export interface Relaxation {
  change: RelaxationChange;
  says: string;
}

export type RelaxationChange =
  | { drop: string; rule: unknown }
  | { maxJointsPerHeat: number }
  | { protections: readonly ProtectionOption[] }
  | { policy: Policy }
  | { availableG: null; solder: string }
  /** A solder that is not among those asked with. */
  | { solder: Solder }
  | { support: Support }
  | { torch: TorchPreset }
  | { load: 'none'; joint: string }
  | { ventMm: number; part: string }
  /** A joint that exists, taken apart and made anew. */
  | { remake: string }
  /** A joint that is not soldered. */
  | { cold: string }
  | { together: readonly RelaxationChange[] };

export interface Alternative {
  policy: Policy;
  plan: Plan;
  tradeOff: string;
}

export interface PlanSearchAnswer {
  outcome: 'optimal' | 'feasible' | 'infeasible' | 'unknown';
  policy: Policy;
  plan: Plan | null;
  check: PlanCheck | null;
  proof: Proof[];
  why: string[];
  alternatives: Alternative[];
  /** Facts of the piece that a maker can use, in sentences. */
  worthKnowing: string[];
  conflict: Conflict | null;
  relaxations: Relaxation[];
  /** What was tried and what was left out, in short sentences. */
  searched: string[];
  stats: { thermalRuns: number; workUnits: number; elapsedMs: number | null; stoppedBy: 'work_units' | 'time' | 'host' | null };
}

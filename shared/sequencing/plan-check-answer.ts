/** What a check of a plan answers. */

import type { Plan, Protection } from '../design/plan.ts';
import type { SolderRun } from '../thermal/heat-run.ts';
import type { JointVerdict, PartVerdict, Severity } from '../thermal/verdict.ts';
import type { Fault } from './plan-to-check.ts';

export interface EarlierJoint {
  joint: string;
  peakC: number;
  uncertaintyK: number;
  solidMarginK: number;
  runMarginK: number;
  secondsAboveSolidus: number;
  secondsAboveLiquidus: number;
  verdict: JointVerdict;
  severity: Severity;
  says: string;
}

export interface WarmedPart {
  part: string;
  peakC: number;
  limitC: number;
  verdict: PartVerdict;
  severity: Severity;
  says: string;
}

export interface HeatCheck {
  /** From 1. */
  heat: number;
  joints: string[];
  solder: string | null;
  inFire: string[];
  flow: SolderRun['flow'];
  /** To which the target is brought. */
  flowC: number | null;
  settlesC: number | null;
  timeToFlowS: number | null;
  energyJ: number | null;
  /** How far apart several targets are when the coldest flows, as near as the flame can be played; null for one, or without flow. */
  targetSpreadK: number | null;
  /** What is to be minded about the targets themselves, in a sentence; null where nothing is, or a problem says it. */
  says: string | null;
  earlierJoints: EarlierJoint[];
  parts: WarmedPart[];
  /** Ids of the cautions to be shown at this heat. */
  cautions: string[];
  /** Where they were asked for. */
  histories?: HeatHistory[];
}

/** How the coldest point of a target, or the hottest of an earlier joint or a part, warms and cools in a heat. */
export interface HeatHistory {
  of: 'target' | 'joint' | 'part';
  id: string;
  /** Rising, at most 300; straight lines between them keep within 1 K. */
  timesS: number[];
  temperaturesC: number[];
}

/** One small edit of a plan; heats count from 1 and are those of the plan before it. */
export type PlanEdit =
  | { kind: 'protect'; heat: number; protections: readonly Protection[]; awayFrom?: string }
  | { kind: 'unprotect'; heat: number }
  | { kind: 'solder'; heat: number; solder: string }
  | { kind: 'move_heat'; heat: number; to: number }
  | { kind: 'move_joint'; joint: string; to: number }
  | { kind: 'own_heat'; joint: string; at: number };

export interface BestFix {
  /** The edit, and the plan with it made. */
  change: PlanEdit & { plan: Plan };
  problemsLeft: number;
  says: string;
}

export interface PlanProblem {
  heat: number;
  /** The joint or part it happens to; the targets' first joint where they do not flow. */
  joint: string | null;
  part: string | null;
  rule: 'runs' | 'may_run' | 'softens' | 'may_soften' | 'held' | 'over_limit' | 'does_not_flow';
  says: string;
  /** Null where none of the edits tried leaves less wrong. */
  bestFix: BestFix | null;
}

export interface Assumptions {
  torch: { powerW: number; spreadMm: number; gasC: number };
  support: string;
  riseK: number;
  calibration: { powerFactor: number; lossFactor: number; spreadFactor: number } | null;
  antiFlowBudgetS: number;
  uncertainty: string;
  /** Joints that exist whose solder is unknown, and what is taken for it. */
  assumedSolder: { joint: string; solidusC: number; liquidusC: number }[];
  leavesOut: string[];
  deferral: string;
}

export interface PlanCheck {
  verdict: 'clear_to_heat' | 'caution' | 'problem';
  heats: HeatCheck[];
  problems: PlanProblem[];
  /** Edits were left untried: a problem without a fix, or with a poor one, may have a better. */
  fixesCutShort: boolean;
  assumptions: Assumptions;
}

/** Faults in the structure, all of them, or the check of a plan that has none. */
export type PlanCheckOutcome = { outcome: 'faults'; faults: Fault[] } | { outcome: 'checked'; check: PlanCheck };

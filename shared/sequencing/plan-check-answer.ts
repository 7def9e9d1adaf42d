/** What a check of a plan answers. */

import type { Flame, Heat, OwnTorch, Plan, Protection, SinkPlace, Support, TorchPreset } from '../design/plan.ts';
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
  /** How much hotter than the target is brought it gets, where that is over 20 K; null otherwise, and where the target does not flow. */
  aheadK: number | null;
  verdict: PartVerdict;
  severity: Severity;
  says: string;
}

export interface HeatCheck {
  /** From 1. */
  heat: number;
  joints: string[];
  solder: string | null;
  /** It is predicted for this torch, as its calibration has it, and this support: the heat's own, or the bench's. */
  torch: OwnTorch;
  support: Support;
  /** Whether a calibration stands behind the torch; a heat on another torch than the bench's has none. */
  calibrated: boolean;
  inFire: string[];
  flow: SolderRun['flow'];
  /** To which the target is brought. */
  flowC: number | null;
  settlesC: number | null;
  timeToFlowS: number | null;
  /** Heat of the flame into the piece up to flow: storedJ + lostJ, within 0.5 %. */
  energyJ: number | null;
  /** What of it the piece holds at flow. */
  storedJ: number | null;
  /** What of it has left the piece by then: to the room, the support, sinks and water; less what a hot block gives back. */
  lostJ: number | null;
  /** How far apart several targets are when the coldest flows, as near as the flame can be played; null for one, or without flow. */
  targetSpreadK: number | null;
  /** What is to be minded about the targets themselves, in a sentence; null where nothing is, or a problem says it. */
  says: string | null;
  earlierJoints: EarlierJoint[];
  parts: WarmedPart[];
  /** Ids of the cautions to be shown at this heat. */
  cautions: string[];
  /** What each protection and tilt costs; absent where the heat has none. */
  protectionCosts?: ProtectionCost[];
  /** Where they were asked for. */
  histories?: HeatHistory[];
}

/** Of the protection, or of the tilt of the flame: one of the two is there, as the plan has it. */
export interface ProtectionCost {
  protection?: Protection;
  flame?: Flame;
  /** Seconds to flow with it, less those without it, all else as planned; null where it flows in one case only, or in neither. */
  extraS: number | null;
  says: string;
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
  /** Some protections taken away, and the tilt of the flame with them where it is to be upright. */
  | { kind: 'unprotect'; heat: number; protections: readonly Protection[]; upright?: true }
  | { kind: 'sink'; heat: number; sink: Protection; to: SinkPlace }
  /** Null: as the model plays it when nobody says. */
  | { kind: 'flame'; heat: number; flame: Flame | null }
  | { kind: 'bench'; heats: readonly number[]; torch?: TorchPreset; support?: Support }
  | { kind: 'together'; heat: number; edits: readonly PlanEdit[] }
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

/** One small edit of a plan that breaks a rule. */
export interface Mend extends BestFix {
  /** Rules that are still broken; where some are, problems are not yet looked for. */
  faultsLeft: number;
}

/** A rule that is broken, and what puts it right and leaves least wrong; absent where no edit tried does. */
export interface MendedFault extends Fault {
  bestFix?: Mend;
}

/** Something else to do in a heat that does not flow, by which it is predicted to. */
export interface FlowHelp {
  /** The edit, and the heat with it made. */
  change: PlanEdit & { becomes: Heat };
  flow: 'flows' | 'only_just';
  timeToFlowS: number;
  /** With what it would harm, where it would. */
  says: string;
}

export interface PlanProblem {
  heat: number;
  /** The joint or part it happens to; the targets' first joint where they do not flow. */
  joint: string | null;
  part: string | null;
  rule: 'runs' | 'may_run' | 'softens' | 'may_soften' | 'held' | 'over_limit' | 'does_not_flow';
  /** What it comes to; of a target that does not flow, where it settles, null where that is not known. */
  peakC: number | null;
  /** What it may come to: where it runs, or where nothing may soften its solidus; of a target what it has to come to. */
  limitC: number | null;
  /** Below zero, or below the uncertainty, it is a problem. */
  marginK: number | null;
  uncertaintyK: number | null;
  says: string;
  /** Null where none of the edits tried leaves less wrong. */
  bestFix: BestFix | null;
  /** Where a heat does not flow: what was tried and brings it to flow, the gentlest first; two things together where no single one does. */
  helps: FlowHelp[];
  /** Where all that was tried is in vain: so in words, with the highest temperature it came to. */
  nothingHelps: string | null;
}

export interface Assumptions {
  torch: { powerW: number; spreadMm: number; gasC: number };
  support: string;
  riseK: number;
  calibration: { powerFactor: number; lossFactor: number; spreadFactor: number } | null;
  /** Heats on another torch than the bench's, where that is calibrated: its calibration does not count in them. */
  uncalibratedHeats: number[];
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
  /** Edits or helps were left untried: a problem without one, or with a poor one, may have a better. */
  fixesCutShort: boolean;
  /** Where protections were to be added first: the plan with them, which is the one that is checked. */
  filled?: { plan: Plan; added: number; says: string };
  assumptions: Assumptions;
}

/** Faults in the structure, all of them, or the check of a plan that has none. */
export type PlanCheckOutcome = { outcome: 'faults'; faults: MendedFault[] } | { outcome: 'checked'; check: PlanCheck };

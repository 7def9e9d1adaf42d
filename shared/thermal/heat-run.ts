/** What the heat model is asked, and what it answers. The search and the check see nothing else of it. */

import type { Design } from '../design/design.ts';
import type { Bench, Flame, Protection } from '../design/plan.ts';

export interface HeatQuestion {
  /** With every count expanded to single parts and joints (see expandDesign). */
  design: Design;
  bench: Bench;
  /** Joints brought to flow in this heat. */
  targets: readonly string[];
  /** Joints made before it; those that do not hang together with the targets are not in the fire. */
  made: readonly string[];
  /** Liquidus of each solder to be answered for: one run serves them all. */
  solders: readonly { id: string; liquidusC: number }[];
  flame?: Flame;
  protections?: readonly Protection[];
  /** Whether the courses of targets and parts are kept as well; those of earlier joints always are. */
  histories?: boolean;
  /** Decides all over layers of block, for a heat to be compared with one that near its power limit was. */
  layered?: boolean;
}

/** A temperature history of the hottest point of an earlier joint or part, of the coldest of a target: times rising from 0 at the start of the heat. */
export interface TemperatureHistory {
  timesS: Float64Array;
  temperaturesC: Float64Array;
}

export interface SolderRun {
  /** Temperature to which the coldest point of the target is brought. */
  flowC: number;
  flow: 'flows' | 'only_just' | 'does_not_flow';
  /** Where the coldest target point settles when it does not flow; null when it does. */
  settlesC: number | null;
  timeToFlowS: number | null;
  /** Flame heat into the piece up to flow. */
  energyJ: number | null;
  /** What of it the piece holds at flow, and what, on balance, has left it for room, block, sinks and water: energyJ within 0.5 %. */
  storedJ: number | null;
  lostJ: number | null;
  /** Whether layers of block decided it, where it lies on one; absent: a constant loss did. */
  layered?: true;
  /** With several targets that flow: how far apart their coldest points are then. Over 10 K, no play of the flame brings them together. */
  targetSpreadK?: number;
  /** Earlier joints in the fire. */
  joints: Readonly<Record<string, { peakC: number; history: TemperatureHistory }>>;
  parts: Readonly<Record<string, { peakC: number; history?: TemperatureHistory }>>;
  /** Of each target, where histories were asked for. */
  targets?: Readonly<Record<string, TemperatureHistory>>;
}

export interface HeatRun {
  /** Parts in the fire, in the order of the design. */
  inFire: readonly string[];
  bySolder: Readonly<Record<string, SolderRun>>;
}

/** Seconds a history spends above a temperature, crossings interpolated within the step. */
export function secondsAbove({ timesS, temperaturesC }: TemperatureHistory, limitC: number): number {
  let seconds = 0;
  for (let i = 1; i < timesS.length; i++) {
    const dt = timesS[i]! - timesS[i - 1]!;
    const before = temperaturesC[i - 1]! - limitC;
    const after = temperaturesC[i]! - limitC;
    if (before > 0 && after > 0) seconds += dt;
    else if (before > 0 || after > 0) seconds += (dt * Math.max(before, after)) / (Math.abs(before) + Math.abs(after));
  }
  return seconds;
}

/** How the work is done: the bench it is done at, and the ordered heats. */

import type { Place } from './design.ts';

export type TorchPreset = 'micro' | 'small' | 'medium' | 'large' | 'extra_large' | 'hot_point';
/** powerW: heat the flame gives a large cold flat plate; spreadMm: σ of its Gaussian; gasC: its gas temperature. */
export interface OwnTorch {
  powerW: number;
  spreadMm: number;
  gasC: number;
}
export type Support = 'brick' | 'charcoal' | 'hard_brick' | 'air';
export type SinkKind = 'tweezers' | 'heavy_clamp' | 'wet_pack';

export interface Bench {
  torch: TorchPreset | OwnTorch;
  support: Support;
  /** How much hotter a made joint melts than its strip; disputed, 0 when absent. */
  riseK?: number;
  /** Seconds that anti-flow holds a joint above its solidus in one heat. 15 (assumed) when absent. */
  antiFlowBudgetS?: number;
  /** A calibration of this torch and person; null or absent: none. */
  calibration?: { powerFactor: number; lossFactor: number; spreadFactor: number } | null;
}

export type SinkPlace = { joint: string } | Place;

export type Protection =
  | { kind: 'sink'; sink: SinkKind; at: SinkPlace }
  /** Guards a joint or a part. */
  | { kind: 'shield'; guards: string }
  | { kind: 'anti_flow'; guards: string };

export interface Flame {
  /** From the vertical, 0–80; with towards or awayFrom, a joint or a part. */
  tiltDeg?: number;
  towards?: string;
  awayFrom?: string;
  /** Where the flame points, in place of the model's own choice. */
  aim?: Place;
  /** Radius along the metal over which the flame is played. */
  sweepMm?: number;
}

export interface Heat {
  joints: readonly string[];
  /** Id of the one solder of this heat; absent for an anneal. */
  solder?: string;
  purpose?: 'solder' | 'anneal';
  /** In place of the bench's. A calibration belongs to the bench's torch, so a heat on another is uncalibrated. */
  torch?: TorchPreset | OwnTorch;
  /** In place of the bench's. */
  support?: Support;
  flame?: Flame;
  protections?: readonly Protection[];
}

export interface Plan {
  heats: readonly Heat[];
}

/** What a studio can time at its own bench with a clock and open eyes. */

import type { Design, Part } from '../../design/design.ts';
import type { OwnTorch, Plan, Support, TorchPreset } from '../../design/plan.ts';
import { EngineInputError } from '../../engine-input-error.ts';

/** Times seen in one heat, seconds. */
export interface ObservedTimes {
  /** From lighting to glassy clear flux at the joint, which the model takes for 600 °C at the coldest point of it. */
  secondsToFluxClear?: number;
  /** From lighting to the flash of solder through the whole joint. */
  secondsToFlow?: number;
  /** From taking the flame off at flow to the last of the glow in a dim room, the piece lifted off its support and held in the air. */
  secondsToEndOfGlow?: number;
}

export interface ObservedHeat extends ObservedTimes {
  design: Design;
  plan: Plan;
  /** Which heat of the plan, from 1. */
  heat: number;
  /** What the work lay on. As planned for the heat when absent, or brick. */
  support?: Support;
  /** Liquidus of the solders that the plan names; the grades of the table when absent. */
  solders?: readonly { id: string; liquidusC: number }[];
}

/**
 * A strip with two chips of one solder: the flame stays on the first, and the clock runs from its flow to that of the second. One of
 * some 40 × 6 × 1 mm, held in the air by its end, serves most torches; on a longer one the second chip never flows.
 */
export interface ObservedStrip {
  /** Sterling when absent. */
  metal?: Part['metal'];
  lengthMm: number;
  widthMm: number;
  thicknessMm: number;
  /** From one end of the strip. 5 mm when absent. */
  firstChipMm?: number;
  /** Between the chips. 15 mm when absent. */
  chipDistanceMm?: number;
  liquidusC: number;
  /** What the strip lay on. Air when absent. */
  support?: Support;
  secondsBetweenChips: number;
}

export interface TorchCalibrationRequest {
  torch: TorchPreset | OwnTorch;
  observations: readonly ObservedHeat[];
  strips?: readonly ObservedStrip[];
}

const LONGEST_S = 1800;

/** @throws {EngineInputError} unless some time is given, each is over 0 and at most 1800 s, and the flux clears before the solder flows */
export function holdToTimes(times: ObservedTimes, what: string): void {
  const given = [times.secondsToFluxClear, times.secondsToFlow, times.secondsToEndOfGlow].filter((time) => time !== undefined);
  if (given.length === 0) throw new EngineInputError(`times of ${what}`, 'none', 'at least one');
  for (const seconds of given) holdToSeconds(seconds, `a time of ${what}`);
  const { secondsToFluxClear, secondsToFlow } = times;
  if (secondsToFluxClear !== undefined && secondsToFlow !== undefined && !(secondsToFluxClear < secondsToFlow))
    throw new EngineInputError(`secondsToFluxClear of ${what}`, secondsToFluxClear, `before the flow at ${secondsToFlow} s`);
}

export function holdToSeconds(seconds: number, what: string): void {
  if (!(seconds > 0 && seconds <= LONGEST_S)) throw new EngineInputError(what, seconds, `over 0 and at most ${LONGEST_S} s`);
}

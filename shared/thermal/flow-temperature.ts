import { EngineInputError } from '../engine-input-error.ts';

// Chosen knowing trade practice, without a source.
const SUPERHEAT_K = 10;
const LEAST_SUPERHEAT_K = 5;
const UNDER_SOLIDUS_K = 5;

/**
 * The temperature to which a target is brought: 10 K over its solder's liquidus, but 5 K under the lowest solidus in the fire as long
 * as that is still 5 K over the liquidus.
 *
 * T = min(L + 10, max(L + 5, S − 5)). Hard solder (788) on sterling (802) gives 797 °C.
 *
 * @param liquidusC 100 to 2000
 * @param lowestSolidusC of all parts in the fire; 779 if one is a sterling casting
 * @throws {EngineInputError} for a liquidus that no solder has
 */
export function flowTemperatureC(liquidusC: number, lowestSolidusC: number): number {
  if (!(liquidusC >= 100 && liquidusC <= 2000)) throw new EngineInputError('liquidusC', liquidusC, '100 to 2000');
  return Math.min(liquidusC + SUPERHEAT_K, Math.max(liquidusC + LEAST_SUPERHEAT_K, lowestSolidusC - UNDER_SOLIDUS_K));
}

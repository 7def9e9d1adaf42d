import { EngineInputError } from '../engine-input-error.ts';

/** Size of a use and weeks from one to the next, each smoothed by itself, and the rate that follows. */
export interface IntermittentRate {
  sizeG: number;
  gapWeeks: number;
  /** A little under size ÷ gap, which is too high on the whole. */
  rateGPerWeek: number;
}

/**
 * How much is used a week of something that is used in lumps, with weeks of nothing between.
 *
 * At each use: size += α (use − size), gap += α (weeks since the last use − gap); the first use starts both, weeks of nothing
 * change neither. Rate = (1 − α/2) · size / gap.
 *
 * @param weeklyUseG grams of each week, oldest first, zeros included, each ≥ 0
 * @param weight α, above 0, below 1
 * @returns all 0 where nothing was used yet
 * @throws {EngineInputError} for a use that is negative or no number
 * @source Croston, Operational Research Quarterly 23 (1972) 289–303; Syntetos & Boylan, Int. J. Forecasting 21 (2005) 303–314
 */
export function intermittentRate(weeklyUseG: readonly number[], weight: number): IntermittentRate {
  let sizeG = 0;
  let gapWeeks = 0;
  let sinceLast = 0;
  for (const [week, useG] of weeklyUseG.entries()) {
    if (!(useG >= 0 && useG < Infinity)) throw new EngineInputError(`weeklyUseG.${week}`, useG, '0 or more');
    sinceLast += 1;
    if (useG === 0) continue;
    const first = gapWeeks === 0;
    sizeG = first ? useG : sizeG + weight * (useG - sizeG);
    gapWeeks = first ? sinceLast : gapWeeks + weight * (sinceLast - gapWeeks);
    sinceLast = 0;
  }
  return { sizeG, gapWeeks, rateGPerWeek: gapWeeks === 0 ? 0 : ((1 - weight / 2) * sizeG) / gapWeeks };
}

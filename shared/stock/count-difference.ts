import { EngineInputError } from '../engine-input-error.ts';

export interface CountDifference {
  /** Counted less book: below 0, some is missing. */
  differenceG: number;
  toleranceG: number;
  withinTolerance: boolean;
  /** What was really used since the last count, were all of the difference use. */
  trueUseG: number;
  /** True use ÷ booked use; null where none was booked. */
  ratio: number | null;
}

const LEAST_TOLERANCE_G = 0.05;
const TOLERANCE_FRACTION = 0.02;

/**
 * What a scale says of a lot against the book: whether it has to be explained, and how use ran against what was planned.
 *
 * Tolerance = the larger of 0.05 g and 2 % of what was booked as used since the last count.
 *
 * @param count what the book has, what was counted (≥ 0), and what was booked as used since the last count (≥ 0)
 * @throws {EngineInputError} for a number below those bounds
 * @source the scale error of a bench scale and common practice; no source
 */
export function countDifference(count: { bookG: number; countedG: number; usedG: number }): CountDifference {
  const { bookG, countedG, usedG } = count;
  if (!Number.isFinite(bookG)) throw new EngineInputError('bookG', bookG, 'a finite number');
  for (const quantity of ['countedG', 'usedG'] as const) {
    if (!(count[quantity] >= 0 && count[quantity] < Infinity)) throw new EngineInputError(quantity, count[quantity], '0 or more');
  }
  // Grams are whole tenths of a milligram; the last bits of a double are not.
  const differenceG = Number((countedG - bookG).toFixed(4)) + 0;
  const toleranceG = Math.max(LEAST_TOLERANCE_G, Number((TOLERANCE_FRACTION * usedG).toFixed(6)));
  const trueUseG = Number((usedG - differenceG).toFixed(4)) + 0;
  return {
    differenceG,
    toleranceG,
    withinTolerance: Math.abs(differenceG) <= toleranceG,
    trueUseG,
    ratio: usedG > 0 ? trueUseG / usedG : null,
  };
}

/**
 * The trim that would have planned what was really used: (1 + trim) · ratio − 1, from 0 to 2.
 *
 * @param trimFraction what is planned over what stays in the joints, from 0
 * @param ratio true use ÷ planned use, above 0
 * @throws {EngineInputError} for a number out of those bounds
 * @source placed = in the joint · (1 + trim), solved for the trim
 */
export function trimFromUse(trimFraction: number, ratio: number): number {
  if (!(trimFraction >= 0 && trimFraction < Infinity)) throw new EngineInputError('trimFraction', trimFraction, '0 or more');
  if (!(ratio > 0 && ratio < Infinity)) throw new EngineInputError('ratio', ratio, '> 0');
  return Math.min(2, Math.max(0, (1 + trimFraction) * ratio - 1));
}

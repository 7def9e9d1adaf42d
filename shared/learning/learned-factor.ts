import { EngineInputError } from '../engine-input-error.ts';
import { median } from './median.ts';

/** With what a new studio starts: jobs run 25 to 50 % over the guess, by one trade writer's time studies. */
export const NEW_STUDIO_FACTOR = 1.25;
/** Ratios beyond these are forgotten timers and typing errors, and count as these. */
const LEAST_RATIO = 0.25;
const MOST_RATIO = 4;
/** So many pieces' worth the prior counts. */
const PRIOR_PIECES = 5;
/** Spread of ln ratio to begin with; by judgement. */
const PRIOR_SPREAD = 0.3;
/** Makes the median of absolute deviations the standard deviation of a normal distribution: 1 / Φ⁻¹(3/4). */
const MAD_TO_SIGMA = 1.4826;
/** Φ⁻¹(0.8), to the digits the recipe has. */
const EIGHT_IN_TEN = 0.8416;

/** What was learned of one operation. */
export interface LearnedFactor {
  /** Pieces it was learned from. */
  pieces: number;
  /** The median of actual ÷ guessed. */
  usualRatio: number;
  /** Of ln ratio, robust: 1.4826 times the median of the absolute deviations. */
  spread: number;
  /** Times a guessed minute. */
  factor: number;
  /** The spread, drawn towards that of a new studio as long as the pieces are few. */
  shrunkSpread: number;
}

/**
 * What to multiply a guess with, from the ratios of what was taken to what was guessed, robust against forgotten timers.
 *
 * x = ln ratio, the ratio held within 0.25 to 4; centre = median x; spread = 1.4826 · median |x − centre|; w = n / (n + 5);
 * factor = exp(w·centre + (1 − w)·ln prior); shrunk spread² = (n·spread² + 5·0.30²) / (n + 5).
 *
 * @param ratios actual minutes ÷ minutes guessed, before any factor; one a piece, > 0; at least one
 * @param prior the factor to begin with, > 0
 * @throws {EngineInputError} for a ratio or a prior that is not positive and finite
 * @source the studio's own recipe; the robust spread is Hampel's, Robust Statistics (1986)
 */
export function learnedFactor(ratios: readonly number[], prior = NEW_STUDIO_FACTOR): LearnedFactor {
  if (!(prior > 0 && prior < Infinity)) throw new EngineInputError('prior', prior, '> 0');
  for (const ratio of ratios) if (!(ratio > 0 && ratio < Infinity)) throw new EngineInputError('ratios', ratio, '> 0 each');
  const logs = ratios.map((ratio) => Math.log(Math.min(MOST_RATIO, Math.max(LEAST_RATIO, ratio))));
  const centre = median(logs);
  const spread = MAD_TO_SIGMA * median(logs.map((log) => Math.abs(log - centre)));
  const n = logs.length;
  const weight = n / (n + PRIOR_PIECES);
  return {
    pieces: n,
    usualRatio: Math.exp(centre),
    spread,
    factor: Math.exp(weight * centre + (1 - weight) * Math.log(prior)),
    shrunkSpread: Math.sqrt((n * spread ** 2 + PRIOR_PIECES * PRIOR_SPREAD ** 2) / (n + PRIOR_PIECES)),
  };
}

/** What a studio without records has: the prior, with the spread to begin with. */
export function unlearnedFactor(prior = NEW_STUDIO_FACTOR): { factor: number; shrunkSpread: number } {
  if (!(prior > 0 && prior < Infinity)) throw new EngineInputError('prior', prior, '> 0');
  return { factor: prior, shrunkSpread: PRIOR_SPREAD };
}

/**
 * The minutes under which an operation stays eight times in ten: minutes · factor · exp(0.8416 · shrunk spread).
 *
 * @param of minutes guessed, ≥ 0; factor > 0; shrunkSpread ≥ 0
 * @throws {EngineInputError} outside those
 */
export function eightInTenMinutes(of: OperationTime): number {
  holdTime(of);
  return of.minutes * of.factor * Math.exp(EIGHT_IN_TEN * of.shrunkSpread);
}

export interface OperationTime {
  minutes: number;
  factor: number;
  shrunkSpread: number;
}

/** Between the operations of one piece: the same hand, the same week. By judgement. */
const CORRELATION = 0.3;

/**
 * A whole piece: the minutes to expect, and those under which it stays eight times in ten.
 *
 * expected = Σ minutesᵢ·factorᵢ; σ² = Σσᵢ² + 2·0.3·Σσᵢσⱼ over pairs; eight in ten = expected + 0.8416·σ. σᵢ in minutes is what lies
 * between the expected minutes of an operation and its eight in ten, ÷ 0.8416, so that one operation alone comes out as itself.
 *
 * @throws {EngineInputError} as eightInTenMinutes
 */
export function pieceMinutes(operations: readonly OperationTime[]): { expected: number; eightInTen: number } {
  const expected = operations.reduce((sum, { minutes, factor }) => sum + minutes * factor, 0);
  const sigmas = operations.map((of) => (eightInTenMinutes(of) - of.minutes * of.factor) / EIGHT_IN_TEN);
  const total = sigmas.reduce((sum, sigma) => sum + sigma, 0);
  const squares = sigmas.reduce((sum, sigma) => sum + sigma ** 2, 0);
  // 2·Σσᵢσⱼ over pairs is (Σσ)² − Σσ².
  return { expected, eightInTen: expected + EIGHT_IN_TEN * Math.sqrt(squares + CORRELATION * (total ** 2 - squares)) };
}

function holdTime({ minutes, factor, shrunkSpread }: OperationTime): void {
  if (!(minutes >= 0 && minutes < Infinity)) throw new EngineInputError('minutes', minutes, '>= 0');
  if (!(factor > 0 && factor < Infinity)) throw new EngineInputError('factor', factor, '> 0');
  if (!(shrunkSpread >= 0 && shrunkSpread < Infinity)) throw new EngineInputError('shrunkSpread', shrunkSpread, '>= 0');
}

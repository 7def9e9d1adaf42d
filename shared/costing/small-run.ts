import { Decimal, ZERO } from '../decimal.ts';
import { EngineInputError } from '../engine-input-error.ts';

/** Share of its time that a piece takes after each doubling of how many were made before. */
export const USUAL_LEARNING_FRACTION = 0.85;

// Enough for cents of any amount; the exponentials of a run of 500 take some milliseconds at it.
const Fine = Decimal.clone({ precision: 24 });

/**
 * How many times as long as its first piece a run of like pieces takes.
 *
 * Σ k^(log₂ L), k from 1 to n: the unit learning curve, with L the share of the time after each doubling.
 *
 * @param pieces a whole number from 1 to 500
 * @param learningFraction above 0.5 to 1; 1: nobody gets faster
 * @returns from 1 (one piece) to n (L = 1)
 * @throws {EngineInputError} for numbers out of those bounds
 * @source unit (Crawford) learning curve; 85 % is common practice
 */
export function runFactor(pieces: number, learningFraction = USUAL_LEARNING_FRACTION): Decimal {
  if (!(Number.isSafeInteger(pieces) && pieces >= 1 && pieces <= 500))
    throw new EngineInputError('run.pieces', pieces, 'a whole number from 1 to 500');
  if (!(learningFraction > 0.5 && learningFraction <= 1))
    throw new EngineInputError('run.learningFraction', learningFraction, 'above 0.5, at most 1');
  const exponent = Fine.log2(learningFraction);
  let total = ZERO;
  // k = p · q makes k^b = p^b · q^b, so that only primes cost a power.
  const shares: Decimal[] = [];
  for (let k = 1; k <= pieces; k++) {
    const least = leastFactor(k);
    shares[k] = least === k ? new Fine(k).pow(exponent) : shares[least]!.times(shares[k / least]!);
    total = total.plus(shares[k]!);
  }
  return total;
}

/** The smallest factor above 1; 1 of 1. */
function leastFactor(k: number): number {
  for (let factor = 2; factor * factor <= k; factor++) if (k % factor === 0) return factor;
  return k;
}

import { EngineInputError } from '../engine-input-error.ts';

/**
 * The middle value, or the mean of the two middle ones.
 *
 * @param values at least one, all finite, in any order
 * @throws {EngineInputError} for none, or for one that is no finite number
 */
export function median(values: readonly number[]): number {
  const wrong = values.find((value) => !Number.isFinite(value));
  if (values.length === 0 || wrong !== undefined)
    throw new EngineInputError('values', wrong ?? 'none', 'one finite number or more');
  const sorted = values.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

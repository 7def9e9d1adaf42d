import { EngineInputError } from '../engine-input-error.ts';
import type { CostLayer } from './issue-costs.ts';

/**
 * Which deliveries the stock on hand is valued at, when the oldest is taken as used first whichever lot the bench really took:
 * what is on hand is of the newest. More than ever came in (a count found it) is valued at the oldest; less than nothing, at nothing.
 *
 * @param deliveries as they came in, oldest first
 * @throws {EngineInputError} for a quantity that is no whole number
 * @source IAS 2, Inventories, paragraph 27 (first-in, first-out)
 */
export function oldestFirstLayers(deliveries: readonly CostLayer[], onHandTenthMg: number): CostLayer[] {
  if (!Number.isSafeInteger(onHandTenthMg)) throw new EngineInputError('onHandTenthMg', onHandTenthMg, 'a whole number');
  const layers: CostLayer[] = [];
  let left = Math.max(0, onHandTenthMg);
  // From the newest back, so that what was used up long ago takes no time.
  for (let i = deliveries.length - 1; i >= 0 && left > 0; i--) {
    const delivery = deliveries[i]!;
    const { lot, tenthMg } = delivery;
    if (!(Number.isSafeInteger(tenthMg) && tenthMg >= 0))
      throw new EngineInputError(`${lot}.tenthMg`, tenthMg, 'a whole number, 0 or more');
    const of = Math.min(left, tenthMg);
    if (of > 0) layers.push({ ...delivery, tenthMg: of });
    left -= of;
  }
  const oldest = layers.at(-1) ?? deliveries[0];
  if (left > 0 && oldest) layers.push({ ...oldest, tenthMg: left });
  return layers.toReversed();
}

import { takeOldestFirst, type CostLayer } from './issue-costs.ts';

/**
 * Which deliveries the stock on hand is valued at, when the oldest is taken as used first whichever lot the bench really took:
 * what is on hand is of the newest. More than ever came in (a count found it) is valued at the oldest; less than nothing, at nothing.
 *
 * @param deliveries as they came in, oldest first
 * @throws {EngineInputError} for a quantity that is no whole number
 * @source IAS 2, Inventories, paragraph 27 (first-in, first-out)
 */
export function oldestFirstLayers(deliveries: readonly CostLayer[], onHandTenthMg: number): CostLayer[] {
  const onHand = Math.max(0, onHandTenthMg);
  const received = deliveries.reduce((total, { tenthMg }) => total + tenthMg, 0);
  const { layers } = takeOldestFirst(deliveries, Math.max(0, received - onHand));
  const oldest = layers[0] ?? deliveries[0];
  return onHand > received && oldest ? [{ ...oldest, tenthMg: onHand - received }, ...layers] : layers;
}

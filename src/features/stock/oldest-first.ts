/** What came in at one cost. */
export interface Delivery {
  lotNumber: string;
  receivedTenthMg: number;
  unitCostPerG: string;
}

export interface Layer {
  lotNumber: string;
  tenthMg: number;
  unitCostPerG: string;
}

/**
 * Which deliveries the solder on hand is valued at, when the oldest is taken as used first whichever lot the bench really took.
 *
 * What is on hand is therefore of the newest deliveries. More on hand than ever came in (a count found it) is valued at the
 * oldest; less than nothing is worth nothing.
 *
 * @param deliveries oldest first
 * @returns oldest first; the amounts sum to what is on hand, or to 0
 * @source IAS 2, first-in first-out
 */
export function oldestFirstLayers(deliveries: readonly Delivery[], onHandTenthMg: number): Layer[] {
  let left = Math.max(0, onHandTenthMg);
  const layers: Layer[] = [];
  for (const { lotNumber, receivedTenthMg, unitCostPerG } of deliveries.toReversed()) {
    const tenthMg = Math.min(left, receivedTenthMg);
    if (tenthMg > 0) layers.unshift({ lotNumber, tenthMg, unitCostPerG });
    left -= tenthMg;
  }
  const oldest = layers[0] ?? deliveries[0];
  if (left === 0 || !oldest) return layers;
  const { lotNumber, unitCostPerG } = oldest;
  return [{ lotNumber, unitCostPerG, tenthMg: left + (layers[0]?.tenthMg ?? 0) }, ...layers.slice(1)];
}

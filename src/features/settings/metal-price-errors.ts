import { minorDigits } from '../../../shared/costing/currency.ts';
import { pricePerG } from '../../../shared/costing/inputs.ts';
import { checkFence } from '../../../shared/limits/check-fence.ts';
import type { Db } from '../../platform/db/client.ts';
import { escapePointer } from '../../platform/http/fences.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { knownMetalIds } from '../metals/index.ts';
import type { Settings } from './settings.schema.ts';

/** What is wrong, or to be asked about, with the prices of metals that are new or changed. */
export function metalPriceErrors(db: Db, { metalPrices, currency }: Settings, before: Settings): FieldError[] {
  const known = new Set(knownMetalIds(db));
  const changed = Object.entries(metalPrices).filter(([metal, price]) => {
    const last = before.metalPrices[metal];
    return last?.amount !== price.amount || last.per !== price.per;
  });
  return changed.flatMap(([metal, price]) => {
    const pointer = `/metalPrices/${escapePointer(metal)}`;
    const minorPerG = pricePerG(metal, price)
      .times(10 ** minorDigits(currency))
      .toNumber();
    const found = checkFence('metal_product', 'priceMinorPerG', minorPerG);
    return [
      ...(known.has(metal) || metal in before.metalPrices
        ? []
        : [
            {
              pointer,
              detail: `There is no metal ${metal}, so this is the price of one that a design describes by that name. Those that are known are ${[...known].join(', ')}.`,
              confirmable: true,
            },
          ]),
      ...(found.outcome === 'ok'
        ? []
        : [
            {
              pointer: `${pointer}/amount`,
              detail: found.says,
              given: price.amount,
              ...(found.outcome === 'ask' ? { confirmable: true } : {}),
            },
          ]),
    ];
  });
}

import { groupBy } from '../../../shared/group-by.ts';
import type { CostLayer } from '../../../shared/stock/issue-costs.ts';
import type { Db } from '../../platform/db/client.ts';
import { lineCosts } from './product-cost.ts';
import { isUsable } from './offered-solders.ts';
import { lotsInDrawer, type LotRow } from './solder-lots.store.ts';
import { allProducts, type SolderProductRow } from './solder-products.store.ts';
import { heldByProduct, onHandByLot } from './stock-movements.store.ts';

export interface ProductStock {
  product: SolderProductRow;
  /** Of lots that are neither finished nor written off. */
  lots: { lot: LotRow; onHandTenthMg: number }[];
  onHandTenthMg: number;
  /** In lots that a heat may draw from today. */
  usableTenthMg: number;
  heldTenthMg: number;
  /** What is on hand, by the deliveries it is valued at, or at the average. */
  layers: CostLayer[];
  /** What that is worth, to six places. */
  value: string;
}

/** What is in the drawer now, by product, the hardest first. */
export function stockLevels(db: Db, today: string): ProductStock[] {
  const onHand = onHandByLot(db);
  const held = heldByProduct(db);
  const costs = lineCosts(db, 'solder').byProduct;
  const lotsByProduct = groupBy(lotsInDrawer(db), ({ productId }) => productId);
  return allProducts(db).map((product) => {
    const all = (lotsByProduct.get(product.id) ?? []).map((lot) => ({ lot, onHandTenthMg: onHand.get(lot.id) ?? 0 }));
    const onHandTenthMg = total(all);
    return {
      product,
      lots: all.filter(({ lot: { state } }) => state !== 'finished' && state !== 'written_off'),
      onHandTenthMg,
      usableTenthMg: total(all.filter(({ lot }) => isUsable(lot, today))),
      heldTenthMg: held.get(product.id) ?? 0,
      layers: costs.get(product.id)?.layers ?? [],
      value: costs.get(product.id)?.value ?? '0',
    };
  });
}

function total(lots: { onHandTenthMg: number }[]): number {
  return lots.reduce((sum, { onHandTenthMg }) => sum + onHandTenthMg, 0);
}

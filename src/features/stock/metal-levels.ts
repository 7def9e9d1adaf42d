import { groupBy } from '../../../shared/group-by.ts';
import type { CostLayer } from '../../../shared/stock/issue-costs.ts';
import type { Db } from '../../platform/db/client.ts';
import { heldMetal } from './metal-holds.store.ts';
import { metalLotsOldestFirst, metalOnHandByLot, type MetalLotRow } from './metal-lots.store.ts';
import { allMetalProducts, type MetalProductRow } from './metal-products.store.ts';
import { lineCosts } from './product-cost.ts';

export interface MetalStock {
  product: MetalProductRow;
  /** Ours, by lot. */
  lots: { lot: MetalLotRow; onHandTenthMg: number }[];
  onHandTenthMg: number;
  /** For pieces whose parts are cut from it. */
  heldTenthMg: number;
  layers: CostLayer[];
  value: string;
  /** What clients left, by lot: counted apart, never ours in value. */
  clientLots: { lot: MetalLotRow; onHandTenthMg: number }[];
}

/** What metal there is now, by product. */
export function metalLevels(db: Db): MetalStock[] {
  const onHand = metalOnHandByLot(db);
  const costs = lineCosts(db, 'metal').byProduct;
  const held = heldMetal(db);
  const byProduct = groupBy(metalLotsOldestFirst(db), ({ lot }) => lot.productId);
  return allMetalProducts(db).map((product) => {
    const all = (byProduct.get(product.id) ?? []).map(({ lot }) => ({ lot, onHandTenthMg: onHand.get(lot.id) ?? 0 }));
    const lots = all.filter(({ lot, onHandTenthMg }) => lot.commissionId === null && onHandTenthMg !== 0);
    return {
      product,
      lots,
      onHandTenthMg: lots.reduce((total, { onHandTenthMg }) => total + onHandTenthMg, 0),
      heldTenthMg: held.reduce((total, one) => total + (one.productId === product.id ? one.tenthMg : 0), 0),
      layers: costs.get(product.id)?.layers ?? [],
      value: costs.get(product.id)?.value ?? '0',
      clientLots: all.filter(({ lot, onHandTenthMg }) => lot.commissionId !== null && onHandTenthMg !== 0),
    };
  });
}

/** What is held of metals for parts that nothing bought is of the size of, by metal. */
export function heldOfNoProduct(db: Db): { metal: string; tenthMg: number }[] {
  const open = heldMetal(db).filter(({ productId }) => productId === null);
  return [...groupBy(open, ({ metal }) => metal)].map(([metal, own]) => ({
    metal,
    tenthMg: own.reduce((total, { tenthMg }) => total + tenthMg, 0),
  }));
}

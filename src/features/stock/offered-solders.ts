import type { Solder } from '../../../shared/design/solder.ts';
import type { Db } from '../../platform/db/client.ts';
import type { SolderForm } from '../../platform/db/json-columns.ts';
import { toG } from './grams.ts';
import { lotsInDrawer, type LotRow } from './solder-lots.store.ts';
import { allProducts, type SolderProductRow } from './solder-products.store.ts';
import { heldByProduct, onHandByLot } from './stock-movements.store.ts';

/** A solder that may be planned with, as the engine knows it and as the studio does. */
export interface OfferedSolder extends Solder {
  productId: string;
  name: string;
  form: SolderForm;
  /** Decimal money of the studio's currency. */
  pricePerG: string;
}

/** The solders a plan may choose from: no cadmium, no lead or tin, for certain. Grams are those of today that nothing holds. */
export function offeredSolders(db: Db, today: string): OfferedSolder[] {
  const held = heldByProduct(db);
  const usable = usableByProduct(db, today);
  return allProducts(db)
    .filter((product) => product.active && product.cadmiumStanding === 'no' && product.leadOrTinStanding === 'no')
    .map((product) => ({
      ...asSolder(product),
      availableG: toG(Math.max(0, (usable.get(product.id) ?? 0) - (held.get(product.id) ?? 0))),
      productId: product.id,
      name: product.name,
      form: product.form,
      pricePerG: product.pricePerG,
    }));
}

/** On hand by product in the lots a heat may draw from today. */
function usableByProduct(db: Db, today: string): Map<string, number> {
  const onHand = onHandByLot(db);
  const usable = new Map<string, number>();
  for (const lot of lotsInDrawer(db)) {
    if (isUsable(lot, today)) usable.set(lot.productId, (usable.get(lot.productId) ?? 0) + (onHand.get(lot.id) ?? 0));
  }
  return usable;
}

export function isUsable(lot: LotRow, today: string): boolean {
  return (lot.state === 'sealed' || lot.state === 'open') && lot.cadmiumStanding === 'no' && !isPastUse(lot, today);
}

/** The day on the packet is the last on which it may be used. */
export function isPastUse({ useBy }: LotRow, today: string): boolean {
  return useBy !== null && useBy < today;
}

function asSolder(product: SolderProductRow): Solder {
  return {
    id: product.code,
    solidusC: product.solidusC,
    liquidusC: product.liquidusC,
    ...(product.silverFraction === null ? {} : { silverFraction: product.silverFraction }),
    cadmiumStanding: product.cadmiumStanding,
    densityGPerCm3: product.densityGPerCm3,
    smallestPieceG: product.smallestPieceG,
    metalFraction: product.metalFraction,
  };
}

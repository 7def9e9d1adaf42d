import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { toG, toTenthMg } from './grams.ts';
import { findMetalProduct } from './metal-products.store.ts';
import { productUse } from './product-use.ts';
import { findProduct } from './solder-products.store.ts';
import { keptPricePerG } from './stock-fields.ts';
import type { NewSupplierOrder } from './supplier-orders.schema.ts';

export type NewLine = z.infer<typeof NewSupplierOrder>['lines'][number];

const WEEKS_PER_MONTH = 52 / 12;
const ASK_MONTHS = 24;
const MOST_MONTHS = 60;

/** What is wrong with the lines of an order, or to be asked about. */
export function lineErrors(db: Db, lines: readonly NewLine[], today: string): FieldError[] {
  return lines.flatMap((line, index) => {
    const pointer = `/lines/${index}`;
    const { productId, metalProductId, quantityG } = line;
    if ((productId === undefined) === (metalProductId === undefined))
      return [{ pointer, detail: 'Name productId or metalProductId, one of them.' }];
    const product = productId === undefined ? findMetalProduct(db, metalProductId!) : findProduct(db, productId);
    if (!product)
      return [
        {
          pointer: `${pointer}/${productId === undefined ? 'metalProductId' : 'productId'}`,
          detail: 'There is no such product.',
          given: productId ?? metalProductId,
        },
      ];
    const at = `${pointer}/quantityG`;
    const packs = toTenthMg(quantityG) / toTenthMg(product.packG);
    if (!Number.isInteger(packs) || packs < 1)
      return [{ pointer: at, detail: `${product.name} comes in packs of ${product.packG} g.`, given: quantityG, unit: 'g' }];
    return productId === undefined ? [] : tooLongErrors(db, at, { productId, quantityG, today });
  });
}

/** More than years of use may have been meant in another unit; without a history there is nothing to hold it against. */
function tooLongErrors(
  db: Db,
  pointer: string,
  { productId, quantityG, today }: { productId: string; quantityG: number; today: string },
): FieldError[] {
  const { weeklyUseG } = productUse(db, productId, today);
  const usedG = weeklyUseG.reduce((total, useG) => total + useG, 0);
  if (usedG === 0) return [];
  const months = quantityG / (usedG / weeklyUseG.length) / WEEKS_PER_MONTH;
  if (months <= ASK_MONTHS) return [];
  const years = Number((months / 12).toPrecision(2));
  return [
    {
      pointer,
      detail: `${quantityG} g is ${years} years of use. Did you mean ${toG(toTenthMg(quantityG / 100)).toFixed(2)}?`,
      given: quantityG,
      unit: 'g',
      ...(months > MOST_MONTHS ? {} : { confirmable: true }),
    },
  ];
}

/** The lines as they are kept; a line without a price has its product's. */
export function lineRows(db: Db, lines: readonly NewLine[]) {
  return lines.map(({ productId, metalProductId, quantityG, price }) => {
    const own =
      productId === undefined
        ? keptPricePerG(findMetalProduct(db, metalProductId!)!.price)
        : findProduct(db, productId)!.pricePerG;
    return {
      productId: productId ?? null,
      metalProductId: metalProductId ?? null,
      tenthMg: toTenthMg(quantityG),
      pricePerG: price ? keptPricePerG(price) : own,
    };
  });
}

/** So many grams of a product that they make whole packs, one at least. */
export function packsFor({ packG }: { packG: number }, tenthMg: number): number {
  const packTenthMg = toTenthMg(packG);
  return toG(Math.max(1, Math.ceil(tenthMg / packTenthMg)) * packTenthMg);
}

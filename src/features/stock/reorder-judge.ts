import type { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { reorderPoint } from '../../../shared/stock/reorder-point.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Settings } from '../settings/index.ts';
import { toG, toTenthMg } from './grams.ts';
import type { MetalStock } from './metal-levels.ts';
import type { OnOrder } from './on-order.ts';
import { metalUse, productUse, type ProductUse } from './product-use.ts';
import type { ReorderReply } from './reorder-list.schema.ts';
import { keptPricePerG, shownPrice } from './stock-fields.ts';
import type { ProductStock } from './stock-levels.ts';
import { worth } from './stock-value.ts';

type Line = z.infer<typeof ReorderReply>['suppliers'][number]['lines'][number];
export type Judged = Omit<Line, 'because' | 'positionToPoint'>;

interface Asked {
  settings: Settings;
  today: string;
  onOrder: readonly OnOrder[];
}

/** Paste does not keep: half a year's use is the most to buy. */
const PASTE_WEEKS = 26;

export function judgeSolder(db: Db, { product, usableTenthMg, heldTenthMg }: ProductStock, asked: Asked): Judged {
  const { horizonWeeks } = asked.settings.reorder;
  return judge(asked, {
    product: { of: 'solder', ...product },
    use: productUse(db, product.id, asked.today),
    usableTenthMg,
    heldTenthMg,
    horizonWeeks: product.form === 'paste' ? Math.min(PASTE_WEEKS, horizonWeeks) : horizonWeeks,
  });
}

/** Of metal, what was ever used or is held: what merely stands in the list of a supplier is not to be ordered. */
export function judgeMetal(
  db: Db,
  { product, onHandTenthMg, heldTenthMg }: MetalStock,
  { leadWeeks, ...asked }: Asked & { leadWeeks: number },
): Judged[] {
  const use = metalUse(db, product.id, asked.today);
  if (heldTenthMg === 0 && use.weeklyUseG.every((useG) => useG === 0)) return [];
  const { id, name, metal: code, packG, price } = product;
  return [
    judge(asked, {
      product: { of: 'metal', id, code, name, form: null, packG, pricePerG: keptPricePerG(price), leadWeeks },
      use,
      usableTenthMg: onHandTenthMg,
      heldTenthMg,
      horizonWeeks: asked.settings.reorder.horizonWeeks,
    }),
  ];
}

function judge(
  { settings: { reorder, currency }, onOrder }: Asked,
  {
    product,
    use,
    usableTenthMg,
    heldTenthMg,
    horizonWeeks,
  }: {
    product: Pick<Line, 'of' | 'code' | 'name' | 'form' | 'packG' | 'leadWeeks'> & { id: string; pricePerG: string };
    use: ProductUse;
    usableTenthMg: number;
    heldTenthMg: number;
    horizonWeeks: number;
  },
): Judged {
  const { of, code, name, form, packG, leadWeeks, pricePerG } = product;
  const onOrderTenthMg = onOrder.reduce((total, { tenthMg }) => total + tenthMg, 0);
  const [onHandG, heldG, onOrderG] = [toG(usableTenthMg), toG(heldTenthMg), toG(onOrderTenthMg)];
  const answer = reorderPoint({
    ...use,
    leadWeeks,
    reviewWeeks: reorder.reviewWeeks,
    onHandG,
    onOrderG,
    heldG,
    packG,
    priceMinorPerG: new Decimal(pricePerG).times(10 ** minorDigits(currency)).toNumber(),
    orderCostMinor: reorder.orderCostMinor,
    holdingFraction: reorder.holdingFraction,
    horizonWeeks,
  });
  return {
    of,
    productId: product.id,
    code,
    name,
    form,
    onHandG,
    heldG,
    onOrderG,
    expectedOn: onOrder[0]?.expectedOn ?? null,
    positionG: toG(usableTenthMg + onOrderTenthMg - heldTenthMg),
    ...use,
    ...answer,
    packG,
    packs: Math.round(answer.orderG / packG),
    price: shownPrice(pricePerG),
    cost: worth(currency, [{ tenthMg: toTenthMg(answer.orderG), costPerG: pricePerG }]),
    leadWeeks,
  };
}

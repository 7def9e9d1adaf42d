import type { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { fillMinimum, type FilledOrder } from '../../../shared/stock/fill-minimum.ts';
import { reorderPoint } from '../../../shared/stock/reorder-point.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money, sayMoney } from '../../platform/http/money.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { toG, toTenthMg } from './grams.ts';
import { solderOnOrder, type OnOrder } from './on-order.ts';
import { productUse } from './product-use.ts';
import type { ReorderReply } from './reorder-list.schema.ts';
import { shownPrice } from './stock-fields.ts';
import { stockLevels, type ProductStock } from './stock-levels.ts';
import { worth } from './stock-value.ts';
import { findSupplierByName, type SupplierRow } from './suppliers.store.ts';

export type ReorderListService = ReturnType<typeof createReorderListService>;

export type ReorderList = z.infer<typeof ReorderReply>;
type Supplier = ReorderList['suppliers'][number];
type Line = Supplier['lines'][number];
type Judged = Omit<Line, 'because' | 'positionToPoint'>;

/** Paste does not keep: half a year's use is the most to buy. */
const PASTE_WEEKS = 26;

export function createReorderListService({ db, clock }: Platform) {
  return { show: ({ all }: { all: boolean }): ReorderList => reorderList(db, { now: clock.now(), all }) };
}

/** What to order, by supplier; of solders a plan may choose. A supplier's minimum is filled with what is next to need. */
export function reorderList(db: Db, { now, all }: { now: Date; all: boolean }): ReorderList {
  const settings = getSettings(db);
  const today = dateInZone(now, settings.timeZone);
  const onOrder = groupBy(solderOnOrder(db), ({ productId }) => productId);
  const lines = stockLevels(db, today)
    .filter(({ product }) => product.active && product.cadmiumStanding === 'no' && product.leadOrTinStanding === 'no')
    .map((level) => ({
      supplier: level.product.supplier,
      line: judge(db, level, { settings, today, onOrder: onOrder.get(level.product.id) ?? [] }),
    }));
  const bySupplier = [...groupBy(lines, ({ supplier }) => supplier)].toSorted(([a], [b]) => a.localeCompare(b));
  return {
    asOf: now.toISOString(),
    currency: settings.currency,
    suppliers: bySupplier
      .map(([name, own]) =>
        supplierOf(
          { name, row: findSupplierByName(db, name) },
          own.map(({ line }) => line),
          settings.currency,
        ),
      )
      .map((supplier) => (all ? supplier : { ...supplier, lines: supplier.lines.filter(({ because }) => because !== null) }))
      .filter((supplier) => supplier.lines.length > 0),
  };
}

function supplierOf(
  { name, row }: { name: string; row: SupplierRow | undefined },
  judged: readonly Judged[],
  currency: string,
): Supplier {
  const minimum = money(row?.minimumMinor ?? 0, currency);
  const filled = fillMinimum(
    judged.map(({ productId, cost, ...line }) => ({ ...line, id: productId, costMinor: cost.amountMinor })),
    minimum.amountMinor,
  );
  const why = new Map(filled.lines.map((line, place) => [line.id, { ...line, place }]));
  const lines = judged
    .map((line): Line => {
      const included = why.get(line.productId);
      const ratio = line.orderPointG > 0 ? Number((line.positionG / line.orderPointG).toPrecision(6)) : null;
      return { ...line, because: included?.because ?? null, positionToPoint: ratio };
    })
    .toSorted((a, b) => (why.get(a.productId)?.place ?? judged.length) - (why.get(b.productId)?.place ?? judged.length));
  const ordered = lines.filter(({ because }) => because !== null);
  return {
    supplier: row?.name ?? name,
    supplierId: row?.id ?? null,
    lines,
    total: money(filled.totalMinor, currency),
    minimum,
    minimumMet: filled.minimumMet,
    says: says(filled, { lines: ordered, minimum }),
    order:
      row && ordered.length > 0
        ? { supplierId: row.id, lines: ordered.map(({ productId, orderG }) => ({ productId, quantityG: orderG })) }
        : null,
  };
}

function says(
  { totalMinor, minimumMet }: FilledOrder,
  { lines, minimum }: { lines: Line[]; minimum: Supplier['minimum'] },
): string {
  if (lines.length === 0) return 'Nothing is at its point.';
  const total = sayMoney(money(totalMinor, minimum.currency));
  const companions = lines
    .filter(({ because }) => because === 'companion')
    .map(({ name, positionToPoint }) => `${name} (${positionToPoint} of its point)`);
  if (minimum.amountMinor === 0) return `It comes to ${total}.`;
  const along = companions.length === 0 ? '' : ` with ${companions.join(', ')} brought along`;
  if (minimumMet) return `It comes to ${total}${along}, over the minimum of ${sayMoney(minimum)}.`;
  return `It comes to ${total}${along}, under the minimum of ${sayMoney(minimum)}: wait, or ask them; no product is padded beyond its own quantity.`;
}

function judge(
  db: Db,
  { product, usableTenthMg, heldTenthMg }: ProductStock,
  { settings, today, onOrder }: { settings: Settings; today: string; onOrder: readonly OnOrder[] },
): Judged {
  const { reorder, currency } = settings;
  const { weeklyUseG, largestPieceG } = productUse(db, product.id, today);
  const onOrderTenthMg = onOrder.reduce((total, { tenthMg }) => total + tenthMg, 0);
  const [onHandG, heldG, onOrderG] = [toG(usableTenthMg), toG(heldTenthMg), toG(onOrderTenthMg)];
  const answer = reorderPoint({
    weeklyUseG,
    largestPieceG,
    leadWeeks: product.leadWeeks,
    reviewWeeks: reorder.reviewWeeks,
    onHandG,
    onOrderG,
    heldG,
    packG: product.packG,
    priceMinorPerG: new Decimal(product.pricePerG).times(10 ** minorDigits(currency)).toNumber(),
    orderCostMinor: reorder.orderCostMinor,
    holdingFraction: reorder.holdingFraction,
    horizonWeeks: product.form === 'paste' ? Math.min(PASTE_WEEKS, reorder.horizonWeeks) : reorder.horizonWeeks,
  });
  return {
    productId: product.id,
    code: product.code,
    name: product.name,
    form: product.form,
    onHandG,
    heldG,
    onOrderG,
    expectedOn: onOrder[0]?.expectedOn ?? null,
    positionG: toG(usableTenthMg + onOrderTenthMg - heldTenthMg),
    largestPieceG,
    weeklyUseG,
    ...answer,
    packG: product.packG,
    packs: Math.round(answer.orderG / product.packG),
    price: shownPrice(product.pricePerG),
    cost: worth(currency, [{ tenthMg: toTenthMg(answer.orderG), costPerG: product.pricePerG }]),
    leadWeeks: product.leadWeeks,
  };
}

export function reorderCsv({ currency, suppliers }: ReorderList): string {
  const lines = suppliers.flatMap((supplier) => supplier.lines.map((line) => ({ supplier, line })));
  const columns: Column<(typeof lines)[number]>[] = [
    { header: 'supplier', value: ({ supplier }) => supplier.supplier },
    { header: 'product', value: ({ line }) => line.code },
    { header: 'name', value: ({ line }) => line.name },
    { header: 'form', value: ({ line }) => line.form },
    { header: 'on_hand_g', value: ({ line }) => line.onHandG },
    { header: 'held_g', value: ({ line }) => line.heldG },
    { header: 'on_order_g', value: ({ line }) => line.onOrderG },
    { header: 'order_point_g', value: ({ line }) => line.orderPointG },
    { header: 'order_now', value: ({ line }) => (line.orderNow ? 'yes' : 'no') },
    { header: 'because', value: ({ line }) => line.because },
    { header: 'order_g', value: ({ line }) => line.orderG },
    { header: 'packs', value: ({ line }) => line.packs },
    { header: `price_${currency}_per_g`, value: ({ line }) => line.price.amount },
    { header: `cost_${currency}`, value: ({ line }) => inMajor(line.cost) },
    { header: `order_total_${currency}`, value: ({ supplier }) => inMajor(supplier.total) },
    { header: 'minimum_met', value: ({ supplier }) => (supplier.minimumMet ? 'yes' : 'no') },
    { header: 'lead_weeks', value: ({ line }) => line.leadWeeks },
    { header: 'why', value: ({ line }) => line.working.join(' ') },
  ];
  return csvOf(columns, lines);
}

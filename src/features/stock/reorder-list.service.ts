import type { z } from 'zod';
import { Decimal } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { fillMinimum, type FilledOrder } from '../../../shared/stock/fill-minimum.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { money, sayMoney, toMinor } from '../../platform/http/money.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { suppliesToOrder } from '../supplies/index.ts';
import { toG } from './grams.ts';
import { heldOfNoProduct, metalLevels } from './metal-levels.ts';
import { metalOnOrder, solderOnOrder } from './on-order.ts';
import { judgeMetal, judgeSolder, type Judged } from './reorder-judge.ts';
import type { ReorderReply } from './reorder-list.schema.ts';
import { metalLeadWeeks } from './lead-time.ts';
import { stockLevels } from './stock-levels.ts';
import { findSupplierByName, type SupplierRow } from './suppliers.store.ts';

export type ReorderListService = ReturnType<typeof createReorderListService>;

export type ReorderList = z.infer<typeof ReorderReply>;
type Supplier = ReorderList['suppliers'][number];
type Line = Supplier['lines'][number];

export function createReorderListService({ db, clock }: Platform) {
  return { show: ({ all }: { all: boolean }): ReorderList => reorderList(db, { now: clock.now(), all }) };
}

/** What to order, by supplier; of solders a plan may choose, and metal. A supplier's minimum is filled with what is next to need. */
export function reorderList(db: Db, { now, all }: { now: Date; all: boolean }): ReorderList {
  const settings = getSettings(db);
  const { currency } = settings;
  const bySupplier = groupBy(judged(db, settings, dateInZone(now, settings.timeZone)), ({ supplier }) => supplier.toLowerCase());
  return {
    asOf: now.toISOString(),
    currency,
    metalHeldOfNoSize: heldOfNoProduct(db).map(({ metal, tenthMg }) => ({ metal, heldG: toG(tenthMg) })),
    suppliers: [...bySupplier.values()]
      .map((own) => {
        const name = own[0]!.supplier;
        return supplierOf(
          { name, row: findSupplierByName(db, name) },
          own.map(({ line }) => line),
          currency,
        );
      })
      .toSorted((a, b) => a.supplier.localeCompare(b.supplier))
      .map((supplier) => (all ? supplier : { ...supplier, lines: supplier.lines.filter(({ because }) => because !== null) }))
      .filter((supplier) => supplier.lines.length > 0),
    supplies: suppliesToOrder(db).map(({ supply: { id, name, kind, unit, supplier, price }, ...line }) => ({
      supplyId: id,
      name,
      kind,
      unit,
      supplier,
      ...line,
      cost: price === null ? null : money(toMinor(new Decimal(price).times(line.order), currency), currency),
    })),
  };
}

function judged(db: Db, settings: Settings, today: string): { supplier: string; line: Judged }[] {
  const solder = groupBy(solderOnOrder(db), ({ productId }) => productId);
  const metal = groupBy(metalOnOrder(db), ({ productId }) => productId);
  return [
    ...stockLevels(db, today)
      .filter(({ product }) => product.active && product.cadmiumStanding === 'no' && product.leadOrTinStanding === 'no')
      .map((level) => ({
        supplier: level.product.supplier,
        line: judgeSolder(db, level, { settings, today, onOrder: solder.get(level.product.id) ?? [] }),
      })),
    ...metalLevels(db)
      .filter(({ product }) => product.active)
      .flatMap((level) => {
        const { id, supplier } = level.product;
        const leadWeeks = metalLeadWeeks(findSupplierByName(db, supplier));
        return judgeMetal(db, level, { settings, today, leadWeeks, onOrder: metal.get(id) ?? [] }).map((line) => ({
          supplier,
          line,
        }));
      }),
  ];
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
    order: row && ordered.length > 0 ? { supplierId: row.id, lines: ordered.map(orderLine) } : null,
  };
}

function orderLine({ of, productId, orderG }: Line) {
  return { ...(of === 'solder' ? { productId } : { metalProductId: productId }), quantityG: orderG };
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
  const all = companions.length === 0 ? total : `${total} with ${companions.join(', ')} brought along`;
  if (minimumMet) return `It comes to ${all}, over the minimum of ${sayMoney(minimum)}.`;
  return `It comes to ${all}, under the minimum of ${sayMoney(minimum)}: wait, or ask them; no product is padded beyond its own quantity.`;
}

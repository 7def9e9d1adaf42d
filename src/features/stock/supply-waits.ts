import { groupBy } from '../../../shared/group-by.ts';
import { addDays } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { toG } from './grams.ts';
import { USUAL_LEAD_WEEKS } from './lead-time.ts';
import { heldMetal } from './metal-holds.store.ts';
import type { MetalNeeded } from './metal-holds.ts';
import { metalLevels, type MetalStock } from './metal-levels.ts';
import { metalOnOrder, solderOnOrder, type OnOrder } from './on-order.ts';
import { stockLevels } from './stock-levels.ts';
import { heldByPiece } from './stock-movements.store.ts';
import { findSupplierByName } from './suppliers.store.ts';
import { workingDaysLater } from './working-days.ts';

/** What one piece of work still needs of the drawer. */
export interface Supplies {
  solder: readonly { productId: string; tenthMg: number }[];
  metal: readonly MetalNeeded[];
}

/** What is short, how much of it, and from when on it is there. */
export interface SupplyWait {
  what: string;
  shortG: number;
  until: string;
  /** expected: the lead time after it was sent; lead_time: it is not on order, and were it ordered today. */
  because: 'promised' | 'expected' | 'lead_time';
  /** The order it comes with. */
  order: string | null;
  /** The day it was to have come by, where that is past. */
  overdueSince: string | null;
}

interface Pool {
  what: string;
  tenthMg: number;
  coming: { on: string; tenthMg: number; order: OnOrder }[];
  leadOn: string;
}

/** What is held for pieces and still to be used, without the margin that is held over it. */
export function suppliesHeld(db: Db): Map<string, Supplies> {
  const { holdFactor } = getSettings(db);
  const bare = <Held extends { tenthMg: number }>(held: Held) => ({ ...held, tenthMg: Math.round(held.tenthMg / holdFactor) });
  const solder = groupBy(heldByPiece(db), ({ pieceId }) => pieceId);
  const metal = groupBy(heldMetal(db), ({ pieceId }) => pieceId);
  return new Map(
    [...new Set([...solder.keys(), ...metal.keys()])].map((pieceId) => [
      pieceId,
      { solder: (solder.get(pieceId) ?? []).map(bare), metal: (metal.get(pieceId) ?? []).map(bare) },
    ]),
  );
}

/** What each work has to wait for, when the drawer and what is on order go to the first that needs them. */
export function supplyWaits(db: Db, work: readonly Supplies[], today: string): SupplyWait[][] {
  const pools = poolsOf(db, today);
  return work.map(({ solder, metal }) => [
    ...solder.flatMap(({ productId, tenthMg }) => take(pools.get(`solder ${productId}`), { tenthMg, today })),
    ...metal.flatMap((need) => take(pools.get(keyOf(need)), { tenthMg: need.tenthMg, today })),
  ]);
}

const keyOf = ({ metal, productId }: MetalNeeded): string => (productId === null ? `any ${metal}` : `metal ${productId}`);

function take(pool: Pool | undefined, { tenthMg, today }: { tenthMg: number; today: string }): SupplyWait[] {
  if (!pool) return [];
  const there = Math.min(tenthMg, Math.max(0, pool.tenthMg));
  pool.tenthMg -= there;
  let shortTenthMg = tenthMg - there;
  if (shortTenthMg <= 0) return [];
  const short = { what: pool.what, shortG: toG(shortTenthMg) };
  let last: Pool['coming'][number] | undefined;
  for (const delivery of pool.coming) {
    if (shortTenthMg <= 0) break;
    const taken = Math.min(shortTenthMg, delivery.tenthMg);
    delivery.tenthMg -= taken;
    shortTenthMg -= taken;
    if (taken > 0) last = delivery;
  }
  if (shortTenthMg > 0 || !last) return [{ ...short, until: pool.leadOn, because: 'lead_time', order: null, overdueSince: null }];
  const { on, order } = last;
  return [
    {
      ...short,
      until: on < today ? today : on,
      because: order.isPromised ? 'promised' : 'expected',
      order: order.number,
      overdueSince: on < today ? on : null,
    },
  ];
}

function poolsOf(db: Db, today: string): Map<string, Pool> {
  const leadOn = (supplier: string, weeks: number) => {
    const row = findSupplierByName(db, supplier);
    return row ? workingDaysLater(today, row.leadWorkingDays) : addDays(today, 7 * weeks);
  };
  const solderComing = groupBy(solderOnOrder(db), ({ productId }) => productId);
  const metalComing = groupBy(metalOnOrder(db), ({ productId }) => productId);
  const coming = (orders: readonly OnOrder[] = []) =>
    orders.map((order) => ({ on: order.expectedOn ?? today, tenthMg: order.tenthMg, order }));
  const metals = metalLevels(db);
  return new Map<string, Pool>([
    ...stockLevels(db, today).map(({ product, usableTenthMg }): [string, Pool] => [
      `solder ${product.id}`,
      {
        what: product.name,
        tenthMg: usableTenthMg,
        coming: coming(solderComing.get(product.id)),
        leadOn: leadOn(product.supplier, product.leadWeeks),
      },
    ]),
    ...metals.map(({ product, onHandTenthMg }): [string, Pool] => [
      `metal ${product.id}`,
      {
        what: product.name,
        tenthMg: onHandTenthMg,
        coming: coming(metalComing.get(product.id)),
        leadOn: leadOn(product.supplier, USUAL_LEAD_WEEKS),
      },
    ]),
    ...[...groupBy(metals, ({ product }) => product.metal)].map(([metal, own]): [string, Pool] => [
      `any ${metal}`,
      {
        what: metal,
        tenthMg: spareOf(own),
        coming: coming(own.flatMap(({ product }) => metalComing.get(product.id) ?? [])),
        leadOn: leadOn(own[0]!.product.supplier, USUAL_LEAD_WEEKS),
      },
    ]),
  ]);
}

/** What of a metal, in whatever form, is kept for no part of its size. */
function spareOf(own: readonly MetalStock[]): number {
  return own.reduce((total, { onHandTenthMg, heldTenthMg }) => total + Math.max(0, onHandTenthMg - heldTenthMg), 0);
}

import { and, asc, eq, inArray, notInArray, sql } from 'drizzle-orm';
import { alias } from 'drizzle-orm/sqlite-core';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import {
  metalLots,
  metalMovements,
  metalProducts,
  solderLots,
  solderProducts,
  stockMovements,
  supplierOrderLines,
  supplierOrders,
  suppliers,
} from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type OrderRow = typeof supplierOrders.$inferSelect;
export type OrderLineRow = typeof supplierOrderLines.$inferSelect;

/** An order line with what it is of and what came of it. */
export interface OrderLine extends OrderLineRow {
  name: string;
  packG: number;
  receivedTenthMg: number;
  /** Deliveries with what was paid. */
  lots: { tenthMg: number; costPerG: string }[];
}

/** @throws {Problem} not-found */
export function getOrder(db: Db, id: string): OrderRow {
  const row = rowById(db, supplierOrders, id);
  if (!row) throw notFound('supplier order', id);
  return row;
}

export function listOrders(
  db: Db,
  { limit, cursor, supplierId, state }: Page & { supplierId?: string | undefined; state?: string | undefined },
): OrderRow[] {
  return newestRows(db, supplierOrders, { limit, cursor }, { supplierId, state });
}

export function linesOf(db: Db, orderId: string): OrderLine[] {
  return db
    .select({ line: supplierOrderLines, solder: solderProducts, metal: metalProducts })
    .from(supplierOrderLines)
    .leftJoin(solderProducts, eq(solderProducts.id, supplierOrderLines.productId))
    .leftJoin(metalProducts, eq(metalProducts.id, supplierOrderLines.metalProductId))
    .where(eq(supplierOrderLines.orderId, orderId))
    .orderBy(asc(supplierOrderLines.position))
    .all()
    .map(({ line, solder, metal }) => {
      const lots = line.productId === null ? metalLotsOf(db, line.id) : solderLotsOf(db, line.id);
      const { name, packG } = (solder ?? metal)!;
      return { ...line, name, packG, lots, receivedTenthMg: lots.reduce((total, { tenthMg }) => total + tenthMg, 0) };
    });
}

/** A delivery that was booked by mistake and taken back has not come. */
function solderLotsOf(db: Db, lineId: string): OrderLine['lots'] {
  const receipt = alias(stockMovements, 'receipt');
  const takenBack = db
    .select({ lotId: receipt.lotId })
    .from(stockMovements)
    .innerJoin(receipt, and(eq(receipt.id, stockMovements.reversesId), eq(receipt.kind, 'receive')));
  return db
    .select({ tenthMg: solderLots.receivedTenthMg, costPerG: solderLots.unitCostPerG })
    .from(solderLots)
    .where(and(eq(solderLots.orderLineId, lineId), notInArray(solderLots.id, takenBack)))
    .all();
}

function metalLotsOf(db: Db, lineId: string): OrderLine['lots'] {
  const receipt = alias(metalMovements, 'receipt');
  const takenBack = db
    .select({ lotId: receipt.lotId })
    .from(metalMovements)
    .innerJoin(receipt, and(eq(receipt.id, metalMovements.reversesId), eq(receipt.kind, 'receive')));
  return db
    .select({ tenthMg: metalLots.receivedTenthMg, costPerG: metalLots.unitCostPerG })
    .from(metalLots)
    .where(and(eq(metalLots.orderLineId, lineId), notInArray(metalLots.id, takenBack)))
    .all();
}

export function insertOrder(db: Db, row: typeof supplierOrders.$inferInsert): OrderRow {
  return insertRow(db, supplierOrders, row);
}

export function updateOrder(db: Db, id: string, change: Partial<OrderRow>): OrderRow {
  return updateRow(db, supplierOrders, id, change);
}

export function putLines(db: Db, orderId: string, lines: (typeof supplierOrderLines.$inferInsert)[]): void {
  db.delete(supplierOrderLines).where(eq(supplierOrderLines.orderId, orderId)).run();
  for (const line of lines) db.insert(supplierOrderLines).values(line).run();
}

export function closeLineShort(db: Db, id: string): void {
  db.update(supplierOrderLines).set({ closedShort: true }).where(eq(supplierOrderLines.id, id)).run();
}

/** One that is in has something to come again when a delivery of it was taken back. */
const ON_THE_WAY = ['sent', 'promised', 'part_in', 'in'];

/** Orders that something is still to come of, with their supplier's lead time. */
export function ordersOnTheWay(db: Db): { order: OrderRow; leadWorkingDays: number }[] {
  return db
    .select({ order: supplierOrders, leadWorkingDays: suppliers.leadWorkingDays })
    .from(supplierOrders)
    .innerJoin(suppliers, eq(suppliers.id, supplierOrders.supplierId))
    .where(inArray(supplierOrders.state, ON_THE_WAY))
    .orderBy(sql`${supplierOrders.id}`)
    .all();
}

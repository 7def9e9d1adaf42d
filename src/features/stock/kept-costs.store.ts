import { and, eq, sql } from 'drizzle-orm';
import type { CostMethod, CostState } from '../../../shared/stock/cost-ledger.ts';
import type { Db } from '../../platform/db/client.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { nowCosts, nowLineCosts, type CostedLedger } from '../../platform/db/tables.ts';

/** A line of a ledger that moved something of ours, with the lot it moved. */
export interface CostedLine {
  line: number;
  id: string;
  productId: string;
  kind: string;
  at: string;
  tenthMg: number;
  reversesId: string | null;
  number: string;
  unitCostPerG: string;
  receivedOn: string;
}

const OF: Readonly<Record<CostedLedger, { movements: string; lots: string; ours: string }>> = {
  solder: { movements: 'stock_movements', lots: 'solder_lots', ours: '1' },
  // What a client left costs nothing and is worth nothing to us.
  metal: { movements: 'metal_movements', lots: 'metal_lots', ours: 'lot.commission_id IS NULL' },
};

/** In the order they were written. Lines that only hold or free move nothing. */
export function linesAfter(db: Db, ledger: CostedLedger, line: number, atMost = -1): CostedLine[] {
  const { movements, lots, ours } = OF[ledger];
  return db.all<CostedLine>(
    sql`SELECT moved.rowid AS line, moved.id, lot.product_id AS productId, kind, at, on_hand_tenth_mg AS tenthMg, reverses_id AS reversesId,
      lot.number, lot.unit_cost_per_g AS unitCostPerG, lot.received_on AS receivedOn
    FROM ${sql.raw(movements)} AS moved CROSS JOIN ${sql.raw(lots)} AS lot ON lot.id = moved.lot_id
    WHERE moved.rowid > ${line} AND on_hand_tenth_mg <> 0 AND ${sql.raw(ours)} ORDER BY moved.rowid LIMIT ${atMost}`,
  );
}

/** How far a ledger was reckoned, and what was left then; nothing, where it was by another method. */
export function costsKept(
  db: Db,
  ledger: CostedLedger,
  method: CostMethod,
): { states: Record<string, CostState>; lastLine: number } {
  const kept = db.select().from(nowCosts).where(eq(nowCosts.ledger, ledger)).get();
  return kept?.method === method ? kept : { states: {}, lastLine: 0 };
}

export function costKept(db: Db, ledger: CostedLedger, movementId: string): string | undefined {
  return keptCost(db).get({ ledger, movementId })?.cost;
}

const keptCost = prepared((db) =>
  db
    .select({ cost: nowLineCosts.cost })
    .from(nowLineCosts)
    .where(and(eq(nowLineCosts.ledger, sql.placeholder('ledger')), eq(nowLineCosts.movementId, sql.placeholder('movementId'))))
    .prepare(),
);

export function keepLineCost(tx: Db, row: typeof nowLineCosts.$inferInsert): void {
  tx.insert(nowLineCosts).values(row).run();
}

/** @param row up to where, and what is left there */
export function keepCosts(tx: Db, row: typeof nowCosts.$inferInsert): void {
  tx.insert(nowCosts).values(row).onConflictDoUpdate({ target: nowCosts.ledger, set: row }).run();
}

/** What was kept by another method is of no use any more. */
export function dropLineCosts(tx: Db, ledger: CostedLedger): void {
  tx.delete(nowLineCosts).where(eq(nowLineCosts.ledger, ledger)).run();
}

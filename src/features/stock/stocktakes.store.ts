import { and, asc, desc, eq, gt, inArray, isNotNull, lte, notInArray, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, newestRows, rowById, updateRow } from '../../platform/db/rows.ts';
import {
  metalLots,
  metalMovements,
  metalProducts,
  solderLots,
  solderProducts,
  stockMovements,
  stocktakeCounts,
  stocktakes,
} from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { notFound } from '../../platform/http/problem.ts';

export type StocktakeRow = typeof stocktakes.$inferSelect;
export type CountRow = typeof stocktakeCounts.$inferSelect;

/** @throws {Problem} not-found */
export function getStocktake(db: Db, id: string): StocktakeRow {
  const row = rowById(db, stocktakes, id);
  if (!row) throw notFound('stocktake', id);
  return row;
}

export function listStocktakes(db: Db, { limit, cursor, state }: Page & { state?: string | undefined }): StocktakeRow[] {
  return newestRows(db, stocktakes, { limit, cursor }, { state });
}

/** One that is under way. */
export function findOpenStocktake(db: Db): StocktakeRow | undefined {
  return db
    .select()
    .from(stocktakes)
    .where(inArray(stocktakes.state, ['counting', 'compared']))
    .get();
}

export function insertStocktake(db: Db, row: typeof stocktakes.$inferInsert): StocktakeRow {
  return insertRow(db, stocktakes, row);
}

export function updateStocktake(db: Db, id: string, change: Partial<StocktakeRow>): StocktakeRow {
  return updateRow(db, stocktakes, id, change);
}

export function insertCount(db: Db, row: typeof stocktakeCounts.$inferInsert): void {
  db.insert(stocktakeCounts).values(row).run();
}

export function updateCount(db: Db, id: string, change: Partial<CountRow>): CountRow {
  return updateRow(db, stocktakeCounts, id, change);
}

/** The counts of a stocktake, solder first, each with its lot. */
export function countsOf(db: Db, stocktakeId: string) {
  return db
    .select({ count: stocktakeCounts, solderLot: solderLots, solder: solderProducts, metalLot: metalLots, metal: metalProducts })
    .from(stocktakeCounts)
    .leftJoin(solderLots, eq(solderLots.id, stocktakeCounts.solderLotId))
    .leftJoin(solderProducts, eq(solderProducts.id, solderLots.productId))
    .leftJoin(metalLots, eq(metalLots.id, stocktakeCounts.metalLotId))
    .leftJoin(metalProducts, eq(metalProducts.id, metalLots.productId))
    .where(eq(stocktakeCounts.stocktakeId, stocktakeId))
    .orderBy(asc(stocktakeCounts.id))
    .all()
    .map(({ count, solderLot, solder, metalLot, metal }) => ({
      count,
      lotId: (solderLot ?? metalLot)!.id,
      number: (solderLot ?? metalLot)!.number,
      costPerG: (solderLot ?? metalLot)!.unitCostPerG,
      receivedTenthMg: (solderLot ?? metalLot)!.receivedTenthMg,
      isGone: solderLot !== null && (solderLot.state === 'finished' || solderLot.state === 'written_off'),
      bookTenthMg: count.bookTenthMg === null ? null : count.bookTenthMg + bookedLate(db, count),
      of: solderLot ? ('solder' as const) : ('metal' as const),
      productId: (solder ?? metal)!.id,
      product: (solder ?? metal)!.name,
      code: solder?.code ?? null,
      owner: metalLot !== null && metalLot.commissionId !== null ? ('client' as const) : ('ours' as const),
    }));
}

/** What came to light after the count of the time before it: the scale had seen it, and the book then had not. */
function bookedLate(db: Db, { solderLotId, metalLotId, countedAt }: CountRow): number {
  if (countedAt === null) return 0;
  const table = solderLotId === null ? metalMovements : stockMovements;
  const late = db
    .select({ tenthMg: sql<number>`coalesce(sum(${table.onHandTenthMg}), 0)` })
    .from(table)
    .where(and(eq(table.lotId, (solderLotId ?? metalLotId)!), gt(table.recordedAt, countedAt), lte(table.at, countedAt)))
    .get();
  return late?.tenthMg ?? 0;
}

/** What was counted of a lot by itself after a moment, and not taken back: the book has followed the scale since. */
export function countedBeside(db: Db, { lotId, of }: { lotId: string; of: 'solder' | 'metal' }, since: string): number {
  const table = of === 'solder' ? stockMovements : metalMovements;
  const rows = db
    .select({ id: table.id, kind: table.kind, tenthMg: table.onHandTenthMg, reversesId: table.reversesId })
    .from(table)
    .where(and(eq(table.lotId, lotId), gt(table.at, since)))
    .all();
  const takenBack = new Set(rows.map(({ reversesId }) => reversesId));
  return rows
    .filter(({ id, kind }) => (kind === 'count_up' || kind === 'count_down') && !takenBack.has(id))
    .reduce((total, { tenthMg }) => total + tenthMg, 0);
}

export type CountedLot = ReturnType<typeof countsOf>[number];

/** Lots that a stocktake goes through: what may still hold something. */
export function lotsToCount(db: Db): { solder: string[]; metal: string[] } {
  const solder = db
    .select({ id: solderLots.id })
    .from(solderLots)
    .where(notInArray(solderLots.state, ['finished', 'written_off']))
    .orderBy(asc(solderLots.id))
    .all();
  const metal = db
    .select({ id: metalMovements.lotId })
    .from(metalMovements)
    .groupBy(metalMovements.lotId)
    .having(sql`sum(${metalMovements.onHandTenthMg}) <> 0`)
    .orderBy(asc(metalMovements.lotId))
    .all();
  return { solder: solder.map(({ id }) => id), metal: metal.map(({ id }) => id) };
}

/** When a lot was last counted or weighed; null: never since it came. */
export function lastCountOf(db: Db, lotId: string): string | null {
  const counted = db
    .select({ at: stocktakeCounts.countedAt })
    .from(stocktakeCounts)
    .innerJoin(stocktakes, eq(stocktakes.id, stocktakeCounts.stocktakeId))
    .where(
      and(
        eq(stocktakes.state, 'posted'),
        isNotNull(stocktakeCounts.countedTenthMg),
        sql`coalesce(${stocktakeCounts.solderLotId}, ${stocktakeCounts.metalLotId}) = ${lotId}`,
      ),
    )
    .orderBy(desc(stocktakeCounts.countedAt))
    .limit(1)
    .get()?.at;
  const weighed = [stockMovements, metalMovements].flatMap((ledger) => lastWeighed(db, ledger, lotId) ?? []);
  return [counted ?? null, ...weighed].reduce((a, b) => (a !== null && (b === null || a > b) ? a : b), null);
}

/** When it was counted up or down by itself, and that was not taken back. */
function lastWeighed(db: Db, ledger: typeof stockMovements | typeof metalMovements, lotId: string): string | undefined {
  const takenBack = db.select({ id: ledger.reversesId }).from(ledger).where(isNotNull(ledger.reversesId));
  return db
    .select({ at: ledger.recordedAt })
    .from(ledger)
    .where(and(eq(ledger.lotId, lotId), inArray(ledger.kind, ['count_up', 'count_down']), notInArray(ledger.id, takenBack)))
    .orderBy(desc(ledger.recordedAt))
    .limit(1)
    .get()?.at;
}

/** What was booked out of a lot for work since a moment, less what was put back; reversed lines are not in it. */
export function usedSince(db: Db, lot: { lotId: string; of: 'solder' | 'metal' }, since: string | null): number {
  const table = lot.of === 'solder' ? stockMovements : metalMovements;
  const kinds = lot.of === 'solder' ? ['use', 'scrap', 'put_back'] : ['issue', 'scrap', 'put_back'];
  const rows = db
    .select({ id: table.id, kind: table.kind, tenthMg: table.onHandTenthMg, reversesId: table.reversesId })
    .from(table)
    .where(and(eq(table.lotId, lot.lotId), since === null ? undefined : gt(table.recordedAt, since)))
    .all();
  const reversed = new Set(rows.map(({ reversesId }) => reversesId));
  const used = rows
    .filter(({ id, kind }) => kinds.includes(kind) && !reversed.has(id))
    .reduce((total, { tenthMg }) => total - tenthMg, 0);
  return Math.max(0, used);
}

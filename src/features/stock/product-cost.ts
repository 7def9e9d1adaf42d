import { groupBy } from '../../../shared/group-by.ts';
import { costLedger, type CostLedger, type StockEvent } from '../../../shared/stock/cost-ledger.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { allMetalMovements, metalLotsOldestFirst, type MetalMovementRow } from './metal-lots.store.ts';
import { lotsOldestFirst, type LotRow } from './solder-lots.store.ts';
import { allMovements, type MovementRow } from './stock-movements.store.ts';

/** What every line of the ledger cost and what is left is worth, by solder product, in the way the studio has chosen. */
export function solderCosts(
  db: Db,
  { productId, until }: { productId?: string | undefined; until?: string | undefined } = {},
): Map<string, CostLedger> {
  const lots = new Map(lotsOldestFirst(db, productId).map((lot) => [lot.id, lot]));
  const byProduct = groupBy(upTo(db, until, allMovements(db, { productId })), (movement) => movement.productId);
  const { stockCost } = getSettings(db);
  return new Map(
    [...byProduct].map(([id, own]) => [
      id,
      costLedger(
        own.flatMap((line) => eventOf(line, lots)),
        stockCost,
      ),
    ]),
  );
}

/** The same of metal that is ours, by metal product. What a client left costs nothing and is worth nothing to us. */
export function metalCosts(db: Db, { until }: { until?: string | undefined } = {}): Map<string, CostLedger> {
  const ours = new Map(
    metalLotsOldestFirst(db).flatMap(({ lot }) => (lot.commissionId === null ? [[lot.id, lot] as const] : [])),
  );
  const lines = upTo(db, until, allMetalMovements(db)).filter(({ lotId }) => ours.has(lotId));
  const byProduct = groupBy(lines, ({ lotId }) => ours.get(lotId)!.productId);
  const { stockCost } = getSettings(db);
  return new Map(
    [...byProduct].map(([id, own]) => [
      id,
      costLedger(
        own.flatMap((line) => eventOf(line, ours)),
        stockCost,
      ),
    ]),
  );
}

/** What was booked by the end of a day in the studio's zone; all of it without one. */
function upTo<Line extends { at: string }>(db: Db, until: string | undefined, lines: Line[]): Line[] {
  if (until === undefined) return lines;
  const { timeZone } = getSettings(db);
  return lines.filter(({ at }) => dateInZone(new Date(at), timeZone) <= until);
}

/** Lines that only hold or free move nothing. */
function eventOf(
  { id, kind, lotId, onHandTenthMg, reversesId }: MovementRow | MetalMovementRow,
  lots: ReadonlyMap<string, Pick<LotRow, 'number' | 'unitCostPerG' | 'receivedOn'>>,
): StockEvent[] {
  if (lotId === null || onHandTenthMg === 0) return [];
  const { number, unitCostPerG, receivedOn } = lots.get(lotId)!;
  return [
    {
      id,
      tenthMg: onHandTenthMg,
      ...(kind === 'receive' ? { delivery: { lot: number, costPerG: unitCostPerG, receivedOn } } : {}),
      ...(reversesId === null ? {} : { reverses: reversesId }),
    },
  ];
}

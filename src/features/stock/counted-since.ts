import { and, eq, gt, inArray, isNotNull, lte, notInArray, or, sql, type SQL } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { metalMovements, stockMovements, stocktakeCounts, stocktakes } from '../../platform/db/tables.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { SKEW_MS } from '../../platform/http/not-yet.ts';
import { addMovement, type MovementRow } from './stock-movements.store.ts';

const OPEN_OR_POSTED = ['counting', 'compared', 'posted'];

type Ledger = typeof stockMovements | typeof metalMovements;

interface Written {
  id: string;
  lotId: string;
  recordedAt: string;
}

/**
 * Whether a scale has seen a lot since a movement of it was written: the book followed it, so the lot holds what it should, and to
 * take the movement back would count the same grams twice.
 */
export function countedAfter(db: Db, movement: Written): boolean {
  return seenSince(db, stockMovements, movement);
}

/** The same of a lot of metal. */
export function metalCountedAfter(db: Db, movement: Written): boolean {
  return seenSince(db, metalMovements, movement);
}

function seenSince(db: Db, ledger: Ledger, { id, lotId, recordedAt }: Written): boolean {
  const written = db
    .select({ place: sql`rowid` })
    .from(ledger)
    .where(eq(ledger.id, id));
  return (
    weighed(db, ledger, { lotId, since: gt(sql`${ledger}.rowid`, written) }) ||
    inStocktake(db, lotId, { since: recordedAt, states: OPEN_OR_POSTED })
  );
}

/**
 * What is booked for a time before the scale saw the lot changes nothing of what it holds: the same is counted back at once. A count of later
 * than now was made before the clock was put back, and has not seen what is done since.
 *
 * @returns whether the scale had seen it
 */
export function seenByScale(db: Db, lotId: string, { at, now }: { at: Date; now: Date }): boolean {
  const since = at.toISOString();
  const until = new Date(now.getTime() + SKEW_MS).toISOString();
  return (
    weighed(db, stockMovements, { lotId, since: and(gt(stockMovements.at, since), lte(stockMovements.at, until))! }) ||
    inStocktake(db, lotId, { since, until, states: ['posted'] })
  );
}

/** The opposite of a movement that came to light after the scale had seen what it did. */
export function countBack(tx: Db, by: WrittenBy, { movement, usedAt }: { movement: MovementRow; usedAt: Date }): void {
  const { productId, lotId, onHandTenthMg } = movement;
  addMovement(tx, by, {
    kind: onHandTenthMg < 0 ? 'count_up' : 'count_down',
    productId,
    lotId,
    onHandTenthMg: -onHandTenthMg,
    heldTenthMg: 0,
    reason: `booked late, for ${usedAt.toISOString()}: the lot was counted after that, and holds what was counted`,
    at: new Date(movement.at),
  });
}

/** Counted up or down, and not taken back. */
function weighed(db: Db, ledger: Ledger, { lotId, since }: { lotId: string; since: SQL }): boolean {
  const takenBack = db.select({ id: ledger.reversesId }).from(ledger).where(isNotNull(ledger.reversesId));
  const found = db
    .select({ id: ledger.id })
    .from(ledger)
    .where(
      and(eq(ledger.lotId, lotId), inArray(ledger.kind, ['count_up', 'count_down']), since, notInArray(ledger.id, takenBack)),
    )
    .limit(1)
    .get();
  return found !== undefined;
}

function inStocktake(
  db: Db,
  lotId: string,
  { since, until, states }: { since: string; until?: string; states: string[] },
): boolean {
  const found = db
    .select({ id: stocktakeCounts.id })
    .from(stocktakeCounts)
    .innerJoin(stocktakes, eq(stocktakes.id, stocktakeCounts.stocktakeId))
    .where(
      and(
        or(eq(stocktakeCounts.solderLotId, lotId), eq(stocktakeCounts.metalLotId, lotId)),
        isNotNull(stocktakeCounts.countedTenthMg),
        gt(stocktakeCounts.countedAt, since),
        until === undefined ? undefined : lte(stocktakeCounts.countedAt, until),
        inArray(stocktakes.state, states),
      ),
    )
    .limit(1)
    .get();
  return found !== undefined;
}

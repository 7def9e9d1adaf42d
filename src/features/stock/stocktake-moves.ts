import type { z } from 'zod';
import { findMove, type GuardOf } from '../../../shared/lifecycles/lifecycles.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor, type WrittenBy } from '../../platform/http/actor.ts';
import { holdToLifecycle } from '../../platform/http/moves.ts';
import { Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import { comparisonOf } from './count-comparison.ts';
import { inGrams, SCALE_ERROR_TENTH_MG } from './grams.ts';
import { addMetalMovement, metalOnHandOf } from './metal-lots.store.ts';
import { addMovement, onHandOf } from './stock-movements.store.ts';
import type { StocktakeMove } from './stocktakes.schema.ts';
import * as store from './stocktakes.store.ts';

type Guard = (lots: readonly store.CountedLot[], tx: Db) => string[];

const GUARDS: Readonly<Record<GuardOf<'stocktake'>, Guard>> = {
  'every-lot-counted': (lots) =>
    lots
      .filter(({ count }) => count.countedTenthMg === null && count.reason === null)
      .map(({ number, product }) => `count lot ${number} (${product}), or say why not`),
  recount: () => [],
  'differences-explained': (lots, tx) => [
    ...lots.flatMap((lot) => {
      const left = onHandOfLot(tx, lot) + differenceOf(tx, lot);
      if (left >= -SCALE_ERROR_TENTH_MG) return [];
      return [`count lot ${lot.number} again: more was taken since than was counted, and ${inGrams(left)} would be left`];
    }),
    ...lots
      .filter(({ count }) => count.reason === null)
      .flatMap((lot) => {
        const found = comparisonOf(lot);
        if (!found || found.withinTolerance) return [];
        return [
          `say how the ${Math.abs(found.differenceG)} g ${found.differenceG < 0 ? 'missing from' : 'too many in'} lot ${lot.number} came about: over the ${found.toleranceG} g that may be`,
        ];
      }),
  ],
};

/** Moves a stocktake along its life cycle. Posted, its differences are booked and the time before it is closed. */
export function moveStocktake(
  tx: Db,
  actor: Actor,
  { id, sent, now }: { id: string; sent: z.infer<typeof StocktakeMove>; now: Date },
): store.StocktakeRow {
  const by = writtenBy(actor, now, sent.deviceId);
  const row = store.getStocktake(tx, id);
  holdToLifecycle('stocktake', actor, { state: row.state, sent, now });
  const lots = store.countsOf(tx, id);
  const guard = findMove('stocktake', row.state, sent.to)?.guard as GuardOf<'stocktake'> | undefined;
  const missing = guard === undefined ? [] : GUARDS[guard](lots, tx);
  if (missing.length > 0)
    throw new Problem('condition-not-met', `Cannot move stocktake ${row.number} to ${sent.to}: ${missing.join('; ')}`, {
      missing,
    });
  if (sent.to === 'posted') for (const lot of lots) bookDifference(tx, by, lot, row.number);
  const counted = lots.flatMap(({ count }) => count.countedAt ?? []).toSorted();
  const after = store.updateStocktake(tx, id, {
    state: sent.to,
    stateReason: sent.reason ?? null,
    version: row.version + 1,
    ...(sent.to === 'posted' ? { closedAt: counted.at(-1) ?? row.createdAt } : {}),
  });
  writeJournal(tx, by, { what: 'stocktake', id, before: row, after });
  return after;
}

/**
 * What a lot lost or gained since it was counted is as right as it was, so the difference is booked as it was found, less what the
 * book has followed another scale by since. A lot that was finished or written off meanwhile has nothing to differ.
 */
function differenceOf(db: Db, lot: store.CountedLot): number {
  const { countedTenthMg, countedAt } = lot.count;
  if (countedTenthMg === null || countedAt === null || lot.bookTenthMg === null || lot.isGone) return 0;
  return countedTenthMg - lot.bookTenthMg - store.countedBeside(db, lot, countedAt);
}

function onHandOfLot(db: Db, { of, lotId }: store.CountedLot): number {
  return of === 'metal' ? metalOnHandOf(db, lotId) : onHandOf(db, lotId);
}

function bookDifference(tx: Db, by: WrittenBy, lot: store.CountedLot, number: string): void {
  const { count, lotId, of, productId } = lot;
  const difference = differenceOf(tx, lot);
  if (difference === 0) return;
  const movement = {
    kind: difference > 0 ? ('count_up' as const) : ('count_down' as const),
    lotId,
    onHandTenthMg: difference,
    reason: count.reason ?? `stocktake ${number}`,
  };
  if (of === 'metal') addMetalMovement(tx, by, movement);
  else addMovement(tx, by, { ...movement, productId, heldTenthMg: 0 });
}

import { desc, lte } from 'drizzle-orm';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { stocktakes } from '../../platform/db/tables.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { startOfDay } from '../../platform/wall-time.ts';
import { getSettings } from '../settings/index.ts';

/**
 * Up to when the books are closed by the last stocktake that was posted; null: none was. One that was posted later than now was so before
 * the clock was put back: no time that anything can be booked for is after it.
 */
export function booksClosedUntil(db: Db, now: Date): string | null {
  const last = db
    .select({ closedAt: stocktakes.closedAt })
    .from(stocktakes)
    .where(lte(stocktakes.closedAt, now.toISOString()))
    .orderBy(desc(stocktakes.closedAt))
    .limit(1)
    .get();
  return last?.closedAt ?? null;
}

/** What was counted stands: nothing is booked into the time before it. */
export function closedErrors(db: Db, pointer: string, { at, now }: { at: Date; now: Date }): FieldError[] {
  const closedUntil = booksClosedUntil(db, now);
  if (closedUntil === null || at.toISOString() > closedUntil) return [];
  const day = dateInZone(new Date(closedUntil), getSettings(db).timeZone);
  return [{ pointer, detail: `The stocktake of ${day} is closed; post a correction today.`, given: at.toISOString() }];
}

/** When a delivery of a day came in; what comes to light of the time before a stocktake is of today. */
export function momentOfReceipt(db: Db, receivedOn: string, now: Date): Date {
  const { timeZone } = getSettings(db);
  if (receivedOn >= dateInZone(now, timeZone)) return now;
  const at = startOfDay(receivedOn, timeZone);
  const closedUntil = booksClosedUntil(db, now);
  return closedUntil !== null && at.toISOString() <= closedUntil ? now : at;
}

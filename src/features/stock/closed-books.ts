import { desc, isNotNull } from 'drizzle-orm';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { stocktakes } from '../../platform/db/tables.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';

/** Up to when the books are closed by the last stocktake that was posted; null: none was. */
export function booksClosedUntil(db: Db): string | null {
  const last = db
    .select({ closedAt: stocktakes.closedAt })
    .from(stocktakes)
    .where(isNotNull(stocktakes.closedAt))
    .orderBy(desc(stocktakes.closedAt))
    .limit(1)
    .get();
  return last?.closedAt ?? null;
}

/** What was counted stands: nothing is booked into the time before it. */
export function closedErrors(db: Db, pointer: string, at: string): FieldError[] {
  const closedUntil = booksClosedUntil(db);
  if (closedUntil === null || at > closedUntil) return [];
  const day = dateInZone(new Date(closedUntil), getSettings(db).timeZone);
  return [{ pointer, detail: `The stocktake of ${day} is closed; post a correction today.`, given: at }];
}

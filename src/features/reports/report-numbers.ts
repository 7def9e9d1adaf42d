import { and, sql, type SQL } from 'drizzle-orm';
import type { SQLiteColumn } from 'drizzle-orm/sqlite-core';
import { addDays } from '../../platform/clock.ts';
import { startOfDay } from '../../platform/wall-time.ts';
import type { Period } from './reports.schema.ts';

/** A period as moments of the book: from the first on, before the second; null where it is open. */
export interface Moments {
  since: string | null;
  before: string | null;
}

export function momentsOf({ from, to }: Period, timeZone: string): Moments {
  return {
    since: from === null ? null : startOfDay(from, timeZone).toISOString(),
    before: to === null ? null : startOfDay(addDays(to, 1), timeZone).toISOString(),
  };
}

/** Rows whose moment lies there; undefined: all of them, those without a moment too. */
export function isIn(column: SQLiteColumn | SQL.Aliased, { since, before }: Moments): SQL | undefined {
  return and(since === null ? undefined : sql`${column} >= ${since}`, before === null ? undefined : sql`${column} < ${before}`);
}

/** Half-up at a number of decimals, as a number that prints so. */
export function round(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return (Math.sign(value) * Math.round(Math.abs(value) * scale)) / scale + 0;
}

/** Whether a day lies in a period; what has no day does so only when no period is asked for. */
export function within(day: string | null, { from, to }: Period): boolean {
  if (day === null) return from === null && to === null;
  return (from === null || day >= from) && (to === null || day <= to);
}

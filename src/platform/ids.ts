import { eq } from 'drizzle-orm';
import { v7 } from 'uuid';
import type { Db } from './db/client.ts';
import { counters } from './db/tables.ts';

/** A new opaque id, ordered by the moment it was made. */
export function newId(at: Date): string {
  return v7({ msecs: at.getTime() });
}

/** The next of a row of human numbers. Numbers are never used again, also when what carried them is gone. */
export function nextNumber(tx: Db, row: string): number {
  const last = tx.select().from(counters).where(eq(counters.name, row)).get()?.last ?? 0;
  tx.insert(counters)
    .values({ name: row, last: last + 1 })
    .onConflictDoUpdate({ target: counters.name, set: { last: last + 1 } })
    .run();
  return last + 1;
}

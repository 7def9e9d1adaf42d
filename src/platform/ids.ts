import { eq } from 'drizzle-orm';
import { v7 } from 'uuid';
import type { Db } from './db/client.ts';
import { counters } from './db/tables.ts';

// Counts on within a process, so that ids of one millisecond keep their order too.
let seq = 0;

/** A new opaque id (UUIDv7, RFC 9562), ordered by the moment it was made. */
export function newId(at: Date): string {
  seq = (seq + 1) % 0x7fff_ffff;
  return v7({ msecs: at.getTime(), seq });
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

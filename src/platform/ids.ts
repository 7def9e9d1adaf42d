import { eq, is, sql } from 'drizzle-orm';
import { getTableConfig, SQLiteTable } from 'drizzle-orm/sqlite-core';
import { v7 } from 'uuid';
import type { Db } from './db/client.ts';
import * as tables from './db/tables.ts';

const { counters } = tables;

// Counts on within a process, so that ids of one millisecond keep their order too.
let seq = 0;
let latestMs = 0;

/**
 * A new opaque id (UUIDv7, RFC 9562), in the order of making: when the clock is put back, ids stay at the time they had come to until
 * it has caught up. When a thing was made stands in the thing.
 */
export function newId(at: Date): string {
  seq = (seq + 1) % 0x7fff_ffff;
  latestMs = Math.max(latestMs, at.getTime());
  return v7({ msecs: latestMs, seq });
}

/** Goes on after the ids of a book, for the case that the clock was put back while its server was off. */
export function continueIds(db: Db): void {
  for (const table of Object.values(tables)) {
    if (!is(table, SQLiteTable)) continue;
    const { name, columns } = getTableConfig(table);
    if (!columns.some((column) => column.name === 'id' && column.primary && column.getSQLType() === 'text')) continue;
    // Ids that were chosen by people are of another shape; no clock comes to those that begin with f.
    const last = db.get<{ id: string } | undefined>(
      sql.raw(
        `SELECT id FROM ${name} WHERE id < 'f' AND id GLOB '????????-????-7???-????-????????????' ORDER BY id DESC LIMIT 1`,
      ),
    );
    if (last) latestMs = Math.max(latestMs, msOf(last.id) + 1);
  }
}

const msOf = (id: string): number => Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);

/** The next of a row of human numbers. Numbers are never used again, also when what carried them is gone. */
export function nextNumber(tx: Db, row: string): number {
  const last = tx.select().from(counters).where(eq(counters.name, row)).get()?.last ?? 0;
  tx.insert(counters)
    .values({ name: row, last: last + 1 })
    .onConflictDoUpdate({ target: counters.name, set: { last: last + 1 } })
    .run();
  return last + 1;
}

/** Counts on after a number that came with what was brought in. */
export function passNumber(tx: Db, row: string, used: number): void {
  const last = tx.select().from(counters).where(eq(counters.name, row)).get()?.last ?? 0;
  if (used <= last) return;
  tx.insert(counters)
    .values({ name: row, last: used })
    .onConflictDoUpdate({ target: counters.name, set: { last: used } })
    .run();
}

import { desc, sql } from 'drizzle-orm';
import type { Db } from './db/client.ts';
import { prepared } from './db/prepared.ts';
import { journal } from './db/tables.ts';
import type { WrittenBy } from './http/actor.ts';

/** Leaves one line of what was written: who, when, which device, before and after. Never changed, never removed. */
export function writeJournal(
  tx: Db,
  by: WrittenBy,
  { what, id, before, after }: { what: string; id: string; before?: unknown; after?: unknown },
): void {
  line(tx).run({
    at: by.at.toISOString(),
    personId: by.personId,
    deviceId: by.deviceId,
    what,
    id,
    before: asJson(before),
    after: asJson(after),
    confirmed: asJson(by.confirmed),
  });
}

const of = sql.placeholder;
const line = prepared((db) =>
  db
    .insert(journal)
    .values({
      at: sql`${of('at')}`,
      personId: sql`${of('personId')}`,
      deviceId: sql`${of('deviceId')}`,
      what: sql`${of('what')}`,
      thingId: sql`${of('id')}`,
      before: sql`${of('before')}`,
      after: sql`${of('after')}`,
      confirmed: sql`${of('confirmed')}`,
    })
    .prepare(),
);

const asJson = (value: unknown): string | null => (value === undefined || value === null ? null : JSON.stringify(value));

/** When the book was last written, by the clock of then; null: never. */
export function lastWrittenAt(db: Db): Date | null {
  const last = db.select({ at: journal.at }).from(journal).orderBy(desc(journal.seq)).limit(1).get();
  return last ? new Date(last.at) : null;
}

import type { Db } from './db/client.ts';
import { journal } from './db/tables.ts';
import type { WrittenBy } from './http/actor.ts';

/** Leaves one line of what was written: who, when, which device, before and after. Never changed, never removed. */
export function writeJournal(
  tx: Db,
  by: WrittenBy,
  { what, id, before, after }: { what: string; id: string; before?: unknown; after?: unknown },
): void {
  tx.insert(journal)
    .values({
      at: by.at.toISOString(),
      personId: by.personId,
      deviceId: by.deviceId,
      what,
      thingId: id,
      before: before ?? null,
      after: after ?? null,
      confirmed: by.confirmed,
    })
    .run();
}

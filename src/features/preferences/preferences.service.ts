import { eq } from 'drizzle-orm';
import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { preferences as table } from '../../platform/db/tables.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import type { PreferencesBody, PreferencesReply } from './preferences.schema.ts';

export type PreferencesService = ReturnType<typeof createPreferencesService>;

/** How the one who asks reads the book. Nobody sees or sets another's. */
export function createPreferencesService({ db, clock }: Platform) {
  return {
    get: ({ personId }: Actor) => read(db, personId),

    set(actor: Actor, seen: number, own: z.infer<typeof PreferencesBody>): z.infer<typeof PreferencesReply> {
      return db.transaction((tx) => {
        const before = read(tx, actor.personId);
        holdToVersion('preferences', before.version, seen);
        const row = { personId: actor.personId, ...own, version: before.version + 1 };
        tx.insert(table).values(row).onConflictDoUpdate({ target: table.personId, set: row }).run();
        writeJournal(tx, writtenBy(actor, clock.now()), {
          what: 'preferences',
          id: actor.personId,
          before: before.own,
          after: own,
        });
        return read(tx, actor.personId);
      });
    },
  };
}

/** The language a person reads the book in. */
export function languageOf(db: Db, personId: string): string {
  return read(db, personId).language;
}

function read(db: Db, personId: string): z.infer<typeof PreferencesReply> {
  const { studioName, currency, timeZone, language, units } = getSettings(db);
  const row = db.select().from(table).where(eq(table.personId, personId)).get();
  return {
    own: { language: row?.language ?? null, units: row?.units ?? null },
    language: row?.language ?? language,
    units: row?.units ?? units,
    studio: { name: studioName, currency, timeZone, language, units },
    version: row?.version ?? 1,
  };
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { sql } from 'drizzle-orm';
import { dateInZone } from '../../platform/clock.ts';
import { fileOf } from '../../platform/db/file-of.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { zipOnThread } from './zip-on-thread.ts';

export type ExportService = ReturnType<typeof createExportService>;

/** Everything that is in the book, to take along. */
export function createExportService({ db, clock }: Platform) {
  return {
    /**
     * The whole book at one moment, without what opens doors. It is read from a copy, on a thread, so that work goes on meanwhile.
     *
     * @param gone aborts when nobody waits for it any more
     */
    async everything(actor: Actor, gone: AbortSignal): Promise<{ zip: Readable; day: string }> {
      const by = writtenBy(actor, clock.now());
      const { studioName, currency, timeZone } = getSettings(db);
      db.transaction((tx) => writeJournal(tx, by, { what: 'export', id: newId(by.at), after: { of: 'everything' } }));
      const folder = mkdtempSync(join(tmpdir(), 'hearthbook-export-'));
      const remove = () => rmSync(folder, { recursive: true, force: true });
      const copy = join(folder, 'book.sqlite');
      try {
        const bookFile = fileOf(db);
        // A book in memory alone is known to no other thread, and is small.
        if (bookFile === null) db.run(sql`VACUUM INTO ${copy}`);
        const about = { exportedAt: by.at.toISOString(), studioName, currency, timeZone };
        const zip = await zipOnThread({ bookFile, copy, about }, gone, remove);
        return { zip, day: dateInZone(by.at, timeZone) };
      } catch (error) {
        remove();
        throw error;
      }
    },
  };
}

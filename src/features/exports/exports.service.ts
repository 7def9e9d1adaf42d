import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import Database from 'better-sqlite3';
import { sql } from 'drizzle-orm';
import { dateInZone } from '../../platform/clock.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { writeZip } from './write-zip.ts';

export type ExportService = ReturnType<typeof createExportService>;

/** Everything that is in the book, to take along. */
export function createExportService({ db, clock }: Platform) {
  return {
    /** The whole book at one moment, without what opens doors. It is read from a copy, so that work goes on meanwhile. */
    everything(actor: Actor): { zip: Readable; day: string } {
      const by = writtenBy(actor, clock.now());
      const { studioName, currency, timeZone } = getSettings(db);
      db.transaction((tx) => writeJournal(tx, by, { what: 'export', id: newId(by.at), after: { of: 'everything' } }));
      const folder = mkdtempSync(join(tmpdir(), 'hearthbook-export-'));
      const remove = () => rmSync(folder, { recursive: true, force: true });
      try {
        const file = join(folder, 'book.sqlite');
        db.run(sql`VACUUM INTO ${file}`);
        const book = new Database(file, { readonly: true });
        const schema = book.prepare<[], { name: string }>('SELECT name FROM schema_migrations ORDER BY name DESC LIMIT 1').get()!
          .name;
        const about = { exportedAt: by.at.toISOString(), studioName, currency, timeZone, schema };
        const zip = writeZip(book, about, () => {
          book.close();
          remove();
        });
        return { zip, day: dateInZone(by.at, timeZone) };
      } catch (error) {
        remove();
        throw error;
      }
    },
  };
}

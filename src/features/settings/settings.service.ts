import { eq, sql } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { settings as table, stockMovements } from '../../platform/db/tables.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { Problem } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { writeJournal } from '../../platform/journal.ts';
import { mergePatch } from '../../platform/merge-patch.ts';
import type { Platform } from '../../platform/platform.ts';
import { holdToTorch } from '../torches/index.ts';
import { backupFolderErrors } from './backup-folder.ts';
import { metalPriceErrors } from './metal-price-errors.ts';
import { DEFAULT_SETTINGS, SETTING_SOURCES } from './default-settings.ts';
import type { Settings } from './settings.schema.ts';

interface StoredSettings {
  settings: Settings;
  version: number;
}

/** The studio's settings: what it has typed, over what a new studio starts with. */
export function getSettings(db: Db): Settings {
  return read(db).settings;
}

export type SettingsService = ReturnType<typeof createSettingsService>;

export function createSettingsService({ db, clock }: Platform) {
  return {
    get: () => ({ ...read(db), startsFrom: SETTING_SOURCES }),

    /** @param patch a JSON Merge Patch (RFC 7396) of the settings */
    change(actor: Actor, seen: number, patch: Record<string, unknown>) {
      return db.transaction((tx) => {
        const before = read(tx);
        holdToVersion('settings', before.version, seen);
        const settings = withPatch(before.settings, patch);
        const { torchId } = settings.bench;
        if (torchId !== undefined && torchId !== null && torchId !== before.settings.bench.torchId) holdToTorch(tx, torchId);
        if (settings.stockCost !== before.settings.stockCost) holdCostMethodOpen(tx);
        const { folder } = settings.backups;
        holdFields(
          [
            ...metalPriceErrors(tx, settings, before.settings),
            ...(folder === before.settings.backups.folder ? [] : backupFolderErrors(folder)),
          ],
          actor.confirmed,
        );
        const by = writtenBy(actor, clock.now());
        const row = { id: 1, body: settings, version: before.version + 1, updatedAt: by.at.toISOString() };
        tx.insert(table).values(row).onConflictDoUpdate({ target: table.id, set: row }).run();
        writeJournal(tx, by, { what: 'settings', id: 'settings', before: before.settings, after: settings });
        return { settings, version: row.version, startsFrom: SETTING_SOURCES };
      });
    },
  };
}

/** Issues that were costed one way cannot be costed the other beside them. */
function holdCostMethodOpen(tx: Db): void {
  const used = tx.select({ id: stockMovements.id }).from(stockMovements).where(eq(stockMovements.kind, 'use')).limit(1).get();
  if (used)
    throw new Problem(
      'condition-not-met',
      'Cannot change how stock is costed: solder was used already; the method is chosen once, before the first use',
    );
}

function read(db: Db): StoredSettings {
  const row = typed(db).get();
  if (!row) return { settings: DEFAULT_SETTINGS, version: 0 };
  if (row.body !== lastRead.text) lastRead = { text: row.body, typed: JSON.parse(row.body) as Settings };
  // Settings added by a newer version start with their default until the studio changes them.
  return { settings: { ...DEFAULT_SETTINGS, ...lastRead.typed }, version: row.version };
}

const typed = prepared((db) =>
  db
    .select({ body: sql<string>`${table.body}`, version: table.version })
    .from(table)
    .where(eq(table.id, 1))
    .prepare(),
);

/** Nearly everything asks for them, and they hardly ever change: the same text is read once. */
let lastRead: { text: string; typed: Partial<Settings> } = { text: '{}', typed: {} };

/** Settings for which nothing is an answer; of any other, null takes a line out. */
const NULLABLE = ['finePrice', 'refiner', 'scrapCredit', 'closingTime'];

function withPatch(settings: Settings, patch: Record<string, unknown>): Settings {
  const nothing = NULLABLE.filter((name) => patch[name] === null).map((name) => [name, null]);
  return {
    ...(mergePatch(settings, patch) as Settings),
    ...Object.fromEntries(nothing),
    // The two ways to say the profit exclude each other, so a new one takes the place of the old.
    ...('profit' in patch ? { profit: patch['profit'] } : {}),
  };
}

import { createHash } from 'node:crypto';
import { eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { safetySheets } from '../../platform/db/tables.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import type { SentFile } from '../../platform/http/form-body.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { getProduct } from './solder-products.store.ts';

export type SafetySheetService = ReturnType<typeof createSafetySheetService>;
type Row = typeof safetySheets.$inferSelect;

/** How files of each kind begin: what the sender calls them is not gone by. */
const BEGINNINGS: readonly [Row['mediaType'], Buffer][] = [
  ['application/pdf', Buffer.from('%PDF-')],
  ['image/png', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])],
  ['image/jpeg', Buffer.from([0xff, 0xd8, 0xff])],
];

export function createSafetySheetService({ db, clock }: Platform) {
  return {
    /** Keeps the sheet of a product, in the place of the one before. */
    put(actor: Actor, productId: string, { bytes }: SentFile) {
      const mediaType = BEGINNINGS.find(([, beginning]) => bytes.subarray(0, beginning.length).equals(beginning))?.[0];
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        getProduct(tx, productId);
        if (mediaType === undefined)
          throw invalidFields([{ pointer: '/file', detail: 'This file is neither a PDF nor a PNG or JPEG picture.' }]);
        const before = find(tx, productId);
        const row: Row = {
          productId,
          mediaType,
          sha256: createHash('sha256').update(bytes).digest('hex'),
          bytes,
          personId: by.personId,
          createdAt: by.at.toISOString(),
        };
        tx.insert(safetySheets).values(row).onConflictDoUpdate({ target: safetySheets.productId, set: row }).run();
        writeJournal(tx, by, {
          what: 'safety-sheet',
          id: productId,
          ...(before ? { before: show(before) } : {}),
          after: show(row),
        });
        return show(row);
      });
    },

    /** @throws {Problem} not-found */
    file(productId: string): Row {
      const { name, safetySheet } = getProduct(db, productId);
      const row = find(db, productId);
      if (!row)
        throw new Problem('not-found', `No file of the safety sheet of ${name} is kept here; it is noted as: ${safetySheet}`);
      return row;
    },
  };
}

function find(db: Db, productId: string): Row | undefined {
  return db.select().from(safetySheets).where(eq(safetySheets.productId, productId)).get();
}

function show({ productId, mediaType, sha256, bytes, createdAt }: Row) {
  return { productId, mediaType, sizeBytes: bytes.length, sha256, createdAt };
}

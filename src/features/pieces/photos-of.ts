import { and, desc, eq, gte, isNull, sql } from 'drizzle-orm';
import { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { prepared } from '../../platform/db/prepared.ts';
import { journal, photos } from '../../platform/db/tables.ts';

/** A photo where it is listed with what it shows; the rest of it is at /photos. */
export const PhotoListed = z.object({
  id: z.string(),
  caption: z.string().nullable(),
  takenAt: z.string(),
  file: z.string().describe('Where the picture is; with ?size=thumbnail a small one.'),
});

const MOST = 50;

const newest = (of: typeof photos.pieceId | typeof photos.heatId | typeof photos.incidentId) =>
  prepared((db) =>
    db
      .select({ id: photos.id, caption: photos.caption, takenAt: photos.takenAt })
      .from(photos)
      .where(eq(of, sql.placeholder('id')))
      .orderBy(desc(photos.id))
      .limit(MOST)
      .prepare(),
  );

const newestOf = { piece: newest(photos.pieceId), heat: newest(photos.heatId), incident: newest(photos.incidentId) };

/** The newest photos of a piece (those of its heats and incidents among them), a heat or an incident. */
export function photosOf(db: Db, thing: keyof typeof newestOf, id: string): z.infer<typeof PhotoListed>[] {
  return newestOf[thing](db)
    .all({ id })
    .map((photo) => ({ ...photo, file: `/api/v1/photos/${photo.id}/file` }));
}

/** Whether the book has a photo of the piece as it is handed over: of the whole, taken since it last came to be finished. */
export function hasFinalPhoto(db: Db, pieceId: string): boolean {
  const cameToFinishing = db
    .select({ at: journal.at })
    .from(journal)
    .where(
      and(
        eq(journal.thingId, pieceId),
        eq(journal.what, 'piece'),
        sql`json_extract(${journal.after}, '$.state') = 'finishing'`,
        sql`json_extract(${journal.before}, '$.state') <> 'finishing'`,
      ),
    )
    .orderBy(desc(journal.seq))
    .limit(1)
    .get();
  if (cameToFinishing === undefined) return false;
  const ofTheWhole = and(isNull(photos.heatId), isNull(photos.incidentId), isNull(photos.part));
  const photo = db
    .select({ id: photos.id })
    .from(photos)
    .where(and(eq(photos.pieceId, pieceId), ofTheWhole, gte(photos.takenAt, cameToFinishing.at)))
    .limit(1)
    .get();
  return photo !== undefined;
}

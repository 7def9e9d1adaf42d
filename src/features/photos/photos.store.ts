import { and, desc, eq, inArray, lt, or } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { insertRow, rowById, updateVersion } from '../../platform/db/rows.ts';
import { commissions, photoFiles, photos } from '../../platform/db/tables.ts';
import type { Page } from '../../platform/http/paging.ts';
import { practicePieces } from '../pieces/index.ts';

export type PhotoRow = typeof photos.$inferSelect;
export type PhotoSize = 'full' | 'thumbnail';

interface PhotoQuery extends Page {
  commissionId?: string | undefined;
  pieceId?: string | undefined;
  heatId?: string | undefined;
  incidentId?: string | undefined;
  practiceOnly: boolean;
}

export function findPhoto(db: Db, id: string): PhotoRow | undefined {
  return rowById(db, photos, id);
}

export function listPhotos(db: Db, { limit, cursor, practiceOnly, ...of }: PhotoQuery): PhotoRow[] {
  return db
    .select()
    .from(photos)
    .where(
      and(
        cursor === undefined ? undefined : lt(photos.id, cursor),
        of.commissionId === undefined ? undefined : eq(photos.commissionId, of.commissionId),
        of.pieceId === undefined ? undefined : eq(photos.pieceId, of.pieceId),
        of.heatId === undefined ? undefined : eq(photos.heatId, of.heatId),
        of.incidentId === undefined ? undefined : eq(photos.incidentId, of.incidentId),
        practiceOnly
          ? or(inArray(photos.pieceId, practicePieces(db)), inArray(photos.commissionId, practiceCommissions(db)))
          : undefined,
      ),
    )
    .orderBy(desc(photos.id))
    .limit(limit + 1)
    .all();
}

/** Commissions a student knows of. */
export function practiceCommissions(db: Db, id?: string) {
  const practice = eq(commissions.kind, 'teaching_piece');
  return db
    .select({ id: commissions.id })
    .from(commissions)
    .where(and(practice, id === undefined ? undefined : eq(commissions.id, id)));
}

/** What the client may see of a commission, in the order it was taken. */
export function photosForClient(db: Db, commissionId: string): PhotoRow[] {
  return db
    .select()
    .from(photos)
    .where(and(eq(photos.commissionId, commissionId), eq(photos.clientMaySee, true)))
    .orderBy(photos.takenAt, photos.id)
    .all();
}

export function insertPhoto(db: Db, row: typeof photos.$inferInsert, files: Readonly<Record<PhotoSize, Buffer>>): PhotoRow {
  const photo = insertRow(db, photos, row);
  for (const size of ['full', 'thumbnail'] as const)
    db.insert(photoFiles).values({ photoId: photo.id, size, bytes: files[size] }).run();
  return photo;
}

/** The picture itself, and a name for what its bytes are. */
export interface PictureFile {
  bytes: Buffer;
  etag: string;
}

export function findPhotoFile(db: Db, { id, sha256 }: Pick<PhotoRow, 'id' | 'sha256'>, size: PhotoSize): PictureFile {
  const file = and(eq(photoFiles.photoId, id), eq(photoFiles.size, size));
  const { bytes } = db.select({ bytes: photoFiles.bytes }).from(photoFiles).where(file).get()!;
  return { bytes, etag: `"${sha256}-${size}"` };
}

export function updatePhoto(db: Db, id: string, change: Partial<PhotoRow>): PhotoRow {
  return updateVersion(db, photos, id, change);
}

/** The bytes go with it. */
export function deletePhoto(db: Db, id: string): void {
  db.delete(photos).where(eq(photos.id, id)).run();
}

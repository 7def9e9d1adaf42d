import type { z } from 'zod';
import { checkFence } from '../../../shared/limits/check-fence.ts';
import type { Db } from '../../platform/db/client.ts';
import { worksHere, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { fenceError } from '../../platform/http/fences.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { aheadErrors } from '../../platform/http/not-yet.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { invalidFields, notFound, Problem, type FieldError } from '../../platform/http/problem.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { findCommission } from '../commissions/index.ts';
import { currentDesign, findPiece, knowsPiece, pieceOfRecord } from '../pieces/index.ts';
import type { CleanPicture } from './clean-picture.ts';
import type { NewPhoto, PhotoChange, PhotoQuery, PhotoReply } from './photos.schema.ts';
import * as store from './photos.store.ts';

export type PhotoService = ReturnType<typeof createPhotoService>;

type Sent = z.infer<typeof NewPhoto>;

/** Pictures of the work. They are kept in the book, private until somebody ticks that the client may see them. */
export function createPhotoService({ db, clock }: Platform) {
  return {
    /** Holds to all that can be held to before the file is read, then reads it. */
    async read(actor: Actor, sent: Sent): Promise<CleanPicture> {
      // The library for pictures takes memory from when it is there.
      const { cleanInTurn, PictureRefused } = await import('./clean-picture.ts');
      holdSent(db, actor, sent, clock.now());
      try {
        return await cleanInTurn(sent.file.bytes);
      } catch (error) {
        if (error instanceof PictureRefused) throw invalidFields([{ pointer: '/file', detail: error.message }]);
        throw error;
      }
    },

    add(actor: Actor, sent: Sent, { full, thumbnail, widthPx, heightPx, sha256 }: CleanPicture) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const commissionId = holdSent(tx, actor, sent, by.at);
        const { file: _file, takenAt = by.at.toISOString(), ...said } = sent;
        const row = store.insertPhoto(
          tx,
          {
            ...said,
            id: newId(by.at),
            commissionId,
            takenAt,
            widthPx,
            heightPx,
            sha256,
            addedBy: actor.personId,
            createdAt: by.at.toISOString(),
          },
          { full, thumbnail },
        );
        writeJournal(tx, by, { what: 'photo', id: row.id, after: row });
        return show(row);
      });
    },

    get: (actor: Actor, id: string) => show(getVisible(db, actor, id)),

    list: (actor: Actor, query: z.infer<typeof PhotoQuery>) =>
      pageOf(store.listPhotos(db, { ...query, practiceOnly: !worksHere(actor) }), query, show),

    file: (actor: Actor, id: string, size: store.PhotoSize) => store.findPhotoFile(db, getVisible(db, actor, id), size),

    change(actor: Actor, id: string, seen: number, change: z.infer<typeof PhotoChange>) {
      return db.transaction((tx) => {
        const before = getVisible(tx, actor, id);
        holdOwn(actor, before, ['desk']);
        holdToVersion('photo', before.version, seen);
        const given = membersSent(change);
        const after = { ...before, ...given };
        if (after.clientMaySee && after.showsPerson)
          throw invalidFields([{ pointer: '/clientMaySee', detail: 'People in the picture: keep it private.' }]);
        if (after.clientMaySee && !before.clientMaySee) holdMayShow(actor, before);
        const row = store.updatePhoto(tx, id, given);
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'photo', id, before, after: row });
        return show(row);
      });
    },

    /** Takes the picture out of the book; the journal keeps that there was one, and what was said of it. */
    remove(actor: Actor, id: string): void {
      db.transaction((tx) => {
        const before = getVisible(tx, actor, id);
        holdOwn(actor, before, ['owner']);
        store.deletePhoto(tx, id);
        writeJournal(tx, writtenBy(actor, clock.now()), { what: 'photo', id, before });
      });
    },
  };
}

/** The commission a picture is of, if all that is named is there and goes together, and the file is of a likely size. */
function holdSent(db: Db, actor: Actor, sent: Sent, now: Date): string {
  const { pieceId, commissionId, file } = sent;
  const piece = pieceId !== undefined && knowsPiece(db, actor, pieceId) ? findPiece(db, pieceId) : undefined;
  const size = file.bytes.length;
  const errors: FieldError[] = [
    ...fenceError('/file', checkFence('photo', 'sizeBytes', size), size),
    ...(sent.takenAt === undefined ? [] : aheadErrors('/takenAt', sent.takenAt, now)),
    ...(pieceId !== undefined && !piece ? [noneSuch('/pieceId', 'There is no piece with this id.', pieceId)] : []),
    ...ofPieceErrors(db, sent, piece?.id),
  ];
  if (pieceId === undefined && commissionId === undefined)
    errors.push({ pointer: '/pieceId', detail: 'Say which piece it is of, or which commission (commissionId).' });
  if (commissionId !== undefined && !knowsCommission(db, actor, commissionId))
    errors.push(noneSuch('/commissionId', 'There is no commission with this id.', commissionId));
  else if (commissionId !== undefined && piece && piece.commissionId !== commissionId)
    errors.push(noneSuch('/commissionId', 'The piece is of another commission.', commissionId));
  holdFields(errors, actor.confirmed);
  return piece?.commissionId ?? commissionId!;
}

/** @param pieceId that the sender knows of */
function ofPieceErrors(db: Db, { heatId, incidentId, part }: Sent, pieceId: string | undefined): FieldError[] {
  const isOf = (thing: string, id: string) => pieceId !== undefined && pieceOfRecord(db, { thing, id }) === pieceId;
  const parts = pieceId === undefined ? [] : (currentDesign(db, pieceId)?.body.parts ?? []);
  return [
    ...(heatId === undefined || isOf('heat', heatId)
      ? []
      : [noneSuch('/heatId', 'This piece has no heat with this id.', heatId)]),
    ...(incidentId === undefined || isOf('incident', incidentId)
      ? []
      : [noneSuch('/incidentId', 'This piece has no incident with this id.', incidentId)]),
    ...(part === undefined || parts.some(({ id }) => id === part)
      ? []
      : [noneSuch('/part', 'The design of this piece has no such part.', part)]),
  ];
}

function noneSuch(pointer: string, detail: string, given: string): FieldError {
  return { pointer, detail, given };
}

function knowsCommission(db: Db, actor: Actor, id: string): boolean {
  return worksHere(actor) ? findCommission(db, id) !== undefined : store.practiceCommissions(db, id).get() !== undefined;
}

function getVisible(db: Db, actor: Actor, id: string): store.PhotoRow {
  const row = store.findPhoto(db, id);
  const isKnown =
    row && (row.pieceId === null ? knowsCommission(db, actor, row.commissionId) : knowsPiece(db, actor, row.pieceId));
  if (!row || !isKnown) throw notFound('photo', id);
  return row;
}

/** Who added it, and those besides. */
function holdOwn(actor: Actor, { addedBy }: store.PhotoRow, besides: readonly ('owner' | 'desk')[]): void {
  if (addedBy === actor.personId || besides.some((role) => actor.roles.has(role))) return;
  throw new Problem('forbidden', `Cannot change this photo: that is for the one who added it, or ${besides.join(' or ')}`);
}

/** What the client sees is for the desk to say; of what went wrong, for the owner. */
function holdMayShow({ roles }: Actor, { incidentId }: store.PhotoRow): void {
  const role = incidentId === null ? 'desk' : 'owner';
  if (!roles.has(role))
    throw new Problem(
      'forbidden',
      `Cannot show this photo to the client: that is for ${role === 'desk' ? 'owner or desk' : 'the owner'}`,
    );
}

function show(row: store.PhotoRow): z.infer<typeof PhotoReply> {
  const { sha256: _sha256, ...photo } = row;
  return { ...photo, file: `/api/v1/photos/${row.id}/file` };
}

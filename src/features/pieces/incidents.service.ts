import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { effectiveRoles, worksHere, writtenBy, type Actor } from '../../platform/http/actor.ts';
import { allowedMoves, holdToLifecycle } from '../../platform/http/moves.ts';
import { aheadErrors } from '../../platform/http/not-yet.ts';
import { pageOf } from '../../platform/http/paging.ts';
import { invalidFields, notFound, Problem } from '../../platform/http/problem.ts';
import { membersSent } from '../../platform/http/patch-body.ts';
import { holdToVersion } from '../../platform/http/versions.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { toG, toTenthMg } from '../stock/index.ts';
import { findHeat } from './heats.store.ts';
import type { IncidentChange, IncidentMove, IncidentQuery, IncidentReply, NewIncident } from './incidents.schema.ts';
import * as store from './incidents.store.ts';
import { findJoint } from './joints.store.ts';
import { knowsPiece } from './known-pieces.ts';
import { holdToFieldsOfMove, holdToMissing } from './move-fields.ts';
import { openIncident } from './open-incident.ts';
import { photosOf } from './photos-of.ts';
import { findPerson, findPiece, type PieceRow } from './pieces.store.ts';

export type IncidentService = ReturnType<typeof createIncidentService>;

type Sent = z.infer<typeof IncidentMove>;

const EXTRAS = ['likelyCause', 'minutesLost', 'solderUsedG', 'how', 'clientTold'];
const TAKEN: Readonly<Record<string, readonly string[]>> = {
  explained: ['likelyCause'],
  put_right: ['minutesLost', 'solderUsedG', 'how'],
  left_as_is: ['clientTold'],
};

const CLOSED: ReadonlySet<string> = new Set(['put_right', 'left_as_is']);

export function createIncidentService({ db, clock }: Platform) {
  return {
    add(actor: Actor, { pieceId, solderUsedG, ...noted }: z.infer<typeof NewIncident>) {
      return db.transaction((tx) => {
        const by = writtenBy(actor, clock.now());
        const seen = { ...noted, seenAt: noted.seenAt ?? by.at.toISOString() };
        const piece = pieceSeen(tx, actor, { ...seen, pieceId }, by.at);
        const row = openIncident(tx, by, {
          ...seen,
          piece,
          solderUsedTenthMg: solderUsedG === undefined ? undefined : toTenthMg(solderUsedG),
        });
        return show(tx, actor, row);
      });
    },

    get: (actor: Actor, id: string) => show(db, actor, getIncident(db, id)),

    /** What fences compare with. */
    stored(id: string) {
      const row = store.findIncident(db, id);
      return row && { ...row, solderUsedG: row.solderUsedTenthMg === null ? null : toG(row.solderUsedTenthMg) };
    },

    list: (actor: Actor, query: z.infer<typeof IncidentQuery>) =>
      pageOf(store.listIncidents(db, { ...query, practiceOnly: !worksHere(actor) }), query, (row) => show(db, actor, row)),

    change(actor: Actor, id: string, seen: number, { solderUsedG, ...change }: z.infer<typeof IncidentChange>) {
      return db.transaction((tx) => {
        const before = getIncident(tx, id);
        holdToVersion('incident', before.version, seen);
        if (CLOSED.has(before.state)) holdOwn(tx, actor, before, 'change');
        const given = membersSent(change);
        const after = write(tx, writtenBy(actor, clock.now()), before, { ...given, ...solderChange(solderUsedG) });
        return show(tx, actor, after);
      });
    },

    move(actor: Actor, id: string, sent: Sent) {
      return db.transaction((tx) => {
        const before = getIncident(tx, id);
        holdToLifecycle('incident', actor, { state: before.state, sent, now: clock.now() });
        holdToFieldsOfMove(sent, EXTRAS, TAKEN[sent.to] ?? []);
        if (before.state === 'explained') holdOwn(tx, actor, before, 'close');
        holdToMissing('the incident', sent.to, missingFor(before, sent));
        const by = writtenBy(actor, clock.now(), sent.deviceId);
        const after = write(tx, by, before, {
          state: sent.to,
          likelyCause: sent.likelyCause ?? before.likelyCause,
          minutesLost: sent.minutesLost ?? before.minutesLost,
          howEnded: sent.how ?? sent.reason ?? before.howEnded,
          clientTold: sent.clientTold ?? before.clientTold,
          ...solderChange(sent.solderUsedG),
        });
        return show(tx, actor, after);
      });
    },
  };
}

function missing(isThere: boolean, says: string): string[] {
  return isThere ? [] : [says];
}

function missingFor({ likelyCause, minutesLost, solderUsedTenthMg }: store.IncidentRow, sent: Sent): string[] {
  switch (sent.to) {
    case 'explained':
      return missing((sent.likelyCause ?? likelyCause) !== null, 'choose the likely cause (likelyCause)');
    case 'put_right':
      return [
        ...missing(sent.how !== undefined, 'say how it was put right (how)'),
        ...missing((sent.minutesLost ?? minutesLost) !== null, 'say how many minutes were lost (minutesLost)'),
        ...missing((sent.solderUsedG ?? solderUsedTenthMg) !== null, 'say how much solder was lost (solderUsedG)'),
      ];
    case 'left_as_is':
      return missing(sent.clientTold !== undefined, 'say whether the client was told (clientTold)');
    case 'seen':
      return [];
  }
}

/** A bench hand closes what they saw themselves, or what a student did, and mends what was said of it after; the owner of all. */
function holdOwn(tx: Db, actor: Actor, { seenBy }: store.IncidentRow, what: 'close' | 'change'): void {
  if (actor.roles.has('owner') || seenBy === actor.personId) return;
  const seer = findPerson(tx, seenBy);
  if (seer && !effectiveRoles(seer.roles).has('bench')) return;
  throw new Problem('forbidden', `Cannot ${what} this incident: that is for the one who saw it, or the owner`);
}

/** The piece, if all that is named of it is there, and the time has come. */
function pieceSeen(
  tx: Db,
  actor: Actor,
  { pieceId, heatId, jointId, seenAt }: Pick<z.infer<typeof NewIncident>, 'pieceId' | 'heatId' | 'jointId'> & { seenAt: string },
  now: Date,
): PieceRow {
  const piece = knowsPiece(tx, actor, pieceId) ? findPiece(tx, pieceId) : undefined;
  const errors = aheadErrors('/seenAt', seenAt, now);
  if (!piece) errors.push({ pointer: '/pieceId', detail: 'There is no piece with this id.', given: pieceId });
  if (heatId !== undefined && (!piece || findHeat(tx, heatId)?.pieceId !== pieceId))
    errors.push({ pointer: '/heatId', detail: 'This piece has no heat with this id.', given: heatId });
  if (jointId !== undefined && !(piece && findJoint(tx, pieceId, jointId)))
    errors.push({ pointer: '/jointId', detail: 'This piece has no such joint.', given: jointId });
  if (!piece || errors.length > 0) throw invalidFields(errors);
  return piece;
}

function solderChange(solderUsedG: number | null | undefined): { solderUsedTenthMg?: number | null } {
  if (solderUsedG === undefined) return {};
  return { solderUsedTenthMg: solderUsedG === null ? null : toTenthMg(solderUsedG) };
}

function write(
  tx: Db,
  by: ReturnType<typeof writtenBy>,
  before: store.IncidentRow,
  change: Partial<store.IncidentRow>,
): store.IncidentRow {
  const after = store.updateIncident(tx, before.id, change);
  writeJournal(tx, by, { what: 'incident', id: before.id, before, after });
  return after;
}

function getIncident(db: Db, id: string): store.IncidentRow {
  const row = store.findIncident(db, id);
  if (!row) throw notFound('incident', id);
  return row;
}

function show(db: Db, actor: Actor, { solderUsedTenthMg, ...row }: store.IncidentRow): z.infer<typeof IncidentReply> {
  return {
    ...(row as Pick<z.infer<typeof IncidentReply>, 'kind' | 'likelyCause' | 'state'> & typeof row),
    solderUsedG: solderUsedTenthMg === null ? null : toG(solderUsedTenthMg),
    photos: photosOf(db, 'incident', row.id),
    allowedMoves: allowedMoves('incident', actor, { state: row.state }),
  };
}

import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { IncidentKind } from './incidents.schema.ts';
import { insertIncident, type IncidentRow } from './incidents.store.ts';
import { hurtPiece } from './piece-state.ts';
import type { PieceRow } from './pieces.store.ts';

export interface Seen {
  piece: PieceRow;
  kind: IncidentKind;
  seenAt: string;
  heatId?: string | undefined;
  jointId?: string | undefined;
  likelyCause?: string | undefined;
  note?: string | undefined;
  minutesLost?: number | undefined;
  solderUsedTenthMg?: number | undefined;
}

/** Notes that something went wrong with a piece; the piece is hurt, where its state allows that. */
export function openIncident(tx: Db, by: WrittenBy, { piece, ...seen }: Seen): IncidentRow {
  if (by.personId === null) throw new Error('an incident is seen by a person');
  const row = insertIncident(tx, {
    ...seen,
    id: newId(by.at),
    pieceId: piece.id,
    state: 'seen',
    seenBy: by.personId,
    createdAt: by.at.toISOString(),
  });
  writeJournal(tx, by, { what: 'incident', id: row.id, after: row });
  hurtPiece(tx, by, piece, `incident: ${seen.kind.replaceAll('_', ' ')}`);
  return row;
}

import { findMove } from '../../../shared/lifecycles/lifecycles.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { writeJournal } from '../../platform/journal.ts';
import { updatePiece, type PieceRow } from './pieces.store.ts';

/** Writes a change of a piece and its line in the journal. */
export function writePiece(tx: Db, by: WrittenBy, before: PieceRow, change: Partial<PieceRow>): PieceRow {
  const after = updatePiece(tx, before.id, change);
  writeJournal(tx, by, { what: 'piece', id: before.id, before, after });
  return after;
}

/** What an incident does to a piece: hurt, where its life cycle knows that; elsewhere it stays as it is. */
export function hurtPiece(tx: Db, by: WrittenBy, piece: PieceRow, reason: string): PieceRow {
  if (!findMove('piece', piece.state, 'hurt')) return piece;
  return writePiece(tx, by, piece, { state: 'hurt', stateReason: reason });
}

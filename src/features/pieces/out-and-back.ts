import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { writePiece } from './piece-state.ts';
import type { PieceRow } from './pieces.store.ts';

/** A piece that is being finished goes out with others, in the open transaction; one that is out already stays so. */
export function sendPieceAway(tx: Db, by: WrittenBy, piece: PieceRow, sentTo: string): PieceRow {
  return piece.state === 'away' ? piece : writePiece(tx, by, piece, { state: 'away', stateReason: sentTo, whereabouts: 'away' });
}

/** A piece that was out is here again and was weighed; one that was hurt out there stays so until somebody sees to it. */
export function takePieceBack(tx: Db, by: WrittenBy, piece: PieceRow, weighedTenthMg: number): PieceRow {
  const back = piece.state === 'away' ? { state: 'finishing', stateReason: null } : {};
  return writePiece(tx, by, piece, { ...back, whereabouts: 'bench', weighedTenthMg });
}

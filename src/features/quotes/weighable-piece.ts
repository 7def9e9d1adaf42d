import type { Weighable } from '../../../shared/costing/fineness.ts';
import type { Db } from '../../platform/db/client.ts';
import { drawnPieces, type PieceRow } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { bookOf, pieceRequest } from './piece-request.ts';

/** What a piece is made of by its design and plan, with its solders, or what is missing to say so. */
export function weighablePiece(db: Db, piece: PieceRow): Weighable | { missing: string[] } {
  return pieceRequest(piece, drawnPieces(db, [piece.id]).get(piece.id), {
    book: bookOf(db, getSettings(db)),
    byHand: { design: false, heats: false },
  });
}

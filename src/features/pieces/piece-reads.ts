import type { Design } from '../../../shared/design/design.ts';
import type { Db } from '../../platform/db/client.ts';
import { notFound } from '../../platform/http/problem.ts';
import * as store from './pieces.store.ts';

export type { PieceRow } from './pieces.store.ts';
export { findPiece, livePiecesOf, piecesOfAll } from './pieces.store.ts';

export interface CurrentDesign {
  id: string;
  number: number;
  body: Design;
}

export function getPiece(db: Db, id: string): store.PieceRow {
  const row = store.findPiece(db, id);
  if (!row) throw notFound('piece', id);
  return row;
}

/** The newest version of a piece's design; undefined while it has none. */
export function currentDesign(db: Db, pieceId: string): CurrentDesign | undefined {
  const row = store.findCurrentDesign(db, pieceId);
  return row && { id: row.id, number: row.number, body: row.body };
}

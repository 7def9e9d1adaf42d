import { and, eq } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { commissions, pieces } from '../../platform/db/tables.ts';
import { worksHere, type Actor } from '../../platform/http/actor.ts';

/** A student knows of practice pieces only; of all others it is as if they were not there. */
export function knowsPiece(db: Db, actor: Actor, pieceId: string): boolean {
  return worksHere(actor) || practicePieces(db, pieceId).get() !== undefined;
}

/** Ids of the pieces a student practises on. */
export function practicePieces(db: Db, pieceId?: string) {
  return db
    .select({ id: pieces.id })
    .from(pieces)
    .innerJoin(commissions, eq(commissions.id, pieces.commissionId))
    .where(and(eq(commissions.kind, 'teaching_piece'), pieceId === undefined ? undefined : eq(pieces.id, pieceId)));
}

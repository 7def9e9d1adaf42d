import type { Db } from '../../platform/db/client.ts';
import { worksHere, type Actor } from '../../platform/http/actor.ts';
import { notFound } from '../../platform/http/problem.ts';
import { findHeat } from './heats.store.ts';
import { findIncident } from './incidents.store.ts';
import { knowsPiece } from './known-pieces.ts';
import { findPlan } from './plans.store.ts';

/** The piece that each kind of record is of, by the record's id. */
const PIECE_OF: Readonly<Record<string, (db: Db, id: string) => string | undefined>> = {
  piece: (_db, id) => id,
  plan: (db, id) => findPlan(db, id)?.pieceId,
  heat: (db, id) => findHeat(db, id)?.pieceId,
  incident: (db, id) => findIncident(db, id)?.pieceId,
};

/** The piece a record is of; undefined where there is no such record. */
export function pieceOfRecord(db: Db, { thing, id }: { thing: string; id: string }): string | undefined {
  return PIECE_OF[thing]?.(db, id);
}

/** Whether there is such a record, as far as this person may know. */
export function knowsRecord(db: Db, actor: Actor, record: { thing: string; id: string }): boolean {
  const pieceId = pieceOfRecord(db, record);
  return pieceId !== undefined && knowsPiece(db, actor, pieceId);
}

/**
 * Of pieces that are none of theirs, and all that hangs on them, a person is told that they are not there; at the same time as of what
 * never was, so that nothing else of the request is answered for the one and not for the other.
 */
export function holdToKnownRecord(db: Db, actor: Actor, record: { thing: string; id: string }): void {
  if (!worksHere(actor) && !knowsRecord(db, actor, record)) throw notFound(record.thing, record.id);
}

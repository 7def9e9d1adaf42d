import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { notFound } from '../../platform/http/problem.ts';
import { knownDesign } from '../calculations/index.ts';
import { askedOfPiece, benchAndSolders, knowsPiece, madeFrom, searchOf } from '../pieces/index.ts';
import type { NewPlanSearch } from './plan-searches.schema.ts';
import type { PlanSearchRow } from './plan-searches.store.ts';

export type AskedFor = Pick<PlanSearchRow, 'pieceId' | 'designId' | 'madeJoints' | 'design' | 'bench' | 'solders' | 'options'>;

/**
 * What a search is asked, whole: of a piece its design with what has become of its joints, with bench and solders as today.
 *
 * @throws {Problem} not-found, condition-not-met, invalid-fields
 */
export function askedFor(db: Db, actor: Actor, asked: z.infer<typeof NewPlanSearch>, now: Date): AskedFor {
  const { pieceId, design, options } = asked;
  const who = { personId: actor.personId, now };
  if (design !== undefined) {
    const { bench, solders } = benchAndSolders(db, who, asked);
    return { pieceId: null, designId: null, madeJoints: [], design: knownDesign(db, design), bench, solders, options };
  }
  if (pieceId === undefined || !knowsPiece(db, actor, pieceId)) throw notFound('piece', String(pieceId));
  const { basis, bench, solders } = askedOfPiece(db, who, pieceId, asked);
  return {
    pieceId,
    ...madeFrom(basis),
    ...searchOf({ pieceId, basis, bench, solders }, options),
    bench,
    solders: [...solders],
    options,
  };
}

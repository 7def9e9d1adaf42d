import type { z } from 'zod';
import type { Db } from '../../platform/db/client.ts';
import { worksHere, type Actor } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import type { FieldError } from '../../platform/http/problem.ts';
import type { NewBenchTime } from './bench-time.schema.ts';
import * as store from './bench-time.store.ts';

type Body = z.infer<typeof NewBenchTime>;

/** What of a new time does not go together. */
export function shapeErrors({ pieceId, heatId, general, startedAt, stoppedAt, minutesByHand }: Body): FieldError[] {
  const onPiece = pieceId !== undefined || heatId !== undefined;
  return [
    ...(onPiece === (general !== undefined)
      ? [{ pointer: '/pieceId', detail: 'Pick a piece or a heat, or say "general": not on a piece. One of them.' }]
      : []),
    ...(stoppedAt !== undefined && startedAt === undefined
      ? [{ pointer: '/startedAt', detail: 'Say when it started, too.' }]
      : []),
    ...(stoppedAt !== undefined && minutesByHand !== undefined
      ? [{ pointer: '/minutesByHand', detail: 'Give a start and a stop, or the minutes: not both.', given: minutesByHand }]
      : []),
  ];
}

/** The piece and the heat a time is on; a student works on teaching pieces only. */
export function targetOf(db: Db, actor: Actor, { pieceId, heatId }: Body): { pieceId: string | null; heatId: string | null } {
  const known = (id: string | undefined) => (id !== undefined && knowsTarget(db, actor, id) ? id : undefined);
  const pieceOfHeat = known(heatId === undefined ? undefined : store.findPieceOfHeat(db, heatId));
  const piece = known(pieceId);
  holdFields(
    [
      ...(heatId !== undefined && pieceOfHeat === undefined
        ? [{ pointer: '/heatId', detail: 'There is no such heat.', given: heatId }]
        : []),
      ...(pieceOfHeat !== undefined && piece !== undefined && pieceOfHeat !== piece
        ? [{ pointer: '/heatId', detail: 'This heat is of another piece.', given: heatId }]
        : []),
      ...(pieceId !== undefined && piece === undefined
        ? [{ pointer: '/pieceId', detail: 'There is no such piece.', given: pieceId }]
        : []),
    ],
    null,
  );
  return { pieceId: piece ?? pieceOfHeat ?? null, heatId: heatId ?? null };
}

function knowsTarget(db: Db, actor: Actor, pieceId: string): boolean {
  const piece = store.findTargetPiece(db, pieceId);
  return piece !== undefined && (worksHere(actor) || piece.kind === 'teaching_piece');
}

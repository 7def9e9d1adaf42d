import type { Design } from '../../../../shared/design/design.ts';
import type { ItemOf, ReplyOf } from '../../api/reply.ts';

export type Piece = ReplyOf<'/api/v1/pieces/{id}'>;
export type PlanVersion = ItemOf<'/api/v1/pieces/{id}/plans'>;
/** In the engine's own terms: on the wire a pair is a plain list. */
export type DesignOfPiece = Design & { number: number };

import { countDifference } from '../../../shared/stock/count-difference.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { holdFields } from '../../platform/http/hold-fields.ts';
import { toG, toTenthMg } from './grams.ts';
import { addMetalMovement, metalOnHandOf, type MetalLotRow } from './metal-lots.store.ts';
import { showMetalMovement } from './metal-movement-reply.ts';
import { moreThanCameIn } from './more-than-came-in.ts';
import { lastCountOf, usedSince } from './stocktakes.store.ts';

/** Books what a scale says of a lot of metal, and tells how its use ran since it was last counted or weighed. */
export function weighMetal(
  tx: Db,
  by: WrittenBy,
  { lot, weighedG, reason }: { lot: MetalLotRow; weighedG: number; reason: string },
) {
  const weighedTenthMg = toTenthMg(weighedG);
  holdFields(moreThanCameIn('/weighedG', lot, weighedTenthMg), by.confirmed);
  const bookTenthMg = metalOnHandOf(tx, lot.id);
  const usedG = toG(usedSince(tx, { lotId: lot.id, of: 'metal' }, lastCountOf(tx, lot.id)));
  const difference = weighedTenthMg - bookTenthMg;
  const movement =
    difference === 0
      ? null
      : addMetalMovement(tx, by, {
          kind: difference > 0 ? 'count_up' : 'count_down',
          lotId: lot.id,
          onHandTenthMg: difference,
          reason,
        });
  return {
    movement: movement && showMetalMovement(tx, movement),
    sinceLastCount: { usedG, ...countDifference({ bookG: toG(bookTenthMg), countedG: toG(weighedTenthMg), usedG }) },
  };
}

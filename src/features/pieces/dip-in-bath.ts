import { pieceWeight } from '../../../shared/forms/piece-weight.ts';
import type { Db } from '../../platform/db/client.ts';
import { invalidFields } from '../../platform/http/problem.ts';
import { bookDip, holdBathFit } from '../baths/index.ts';
import type { HeatMoveAsked } from './heat-move-asked.ts';

const MM2_PER_CM2 = 100;

/** Counts what a heat takes from the bath it goes into; without a bath named nothing is counted. */
export function dipInBath(tx: Db, { by, heat: { row, partsInFire }, sent }: HeatMoveAsked): void {
  const { bathId, bathC, occurredAt } = sent;
  if (bathId === undefined) {
    if (bathC !== undefined) throw invalidFields([{ pointer: '/bathC', detail: 'Say which bath (bathId).', given: bathC }]);
    return;
  }
  const areaMm2 = pieceWeight({ parts: partsInFire }).parts.reduce((total, part) => total + part.areaMm2, 0);
  bookDip(tx, by, holdBathFit(tx, bathId), {
    heatId: row.id,
    areaCm2: areaMm2 / MM2_PER_CM2,
    bathC: bathC ?? null,
    at: new Date(occurredAt),
  });
}

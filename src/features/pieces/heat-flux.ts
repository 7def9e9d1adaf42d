import type { CadmiumStanding } from '../../../shared/design/solder.ts';
import type { Db } from '../../platform/db/client.ts';
import type { HeatFlux } from '../../platform/db/json-columns.ts';
import { getSettings } from '../settings/index.ts';
import type { HeatContext } from './heat-context.ts';
import { productOf } from './heats.store.ts';

export interface FluxOfHeat extends HeatFlux {
  boraxFraction: number;
  /** Of the flux that a paste brings with it; null where the solder brings none. */
  ofPaste: CadmiumStanding | null;
  /** One of the two does, or nobody knows: the caution about it is shown. */
  mayHoldFluoride: boolean;
}

/** The flux of a heat: as it was said when it was made ready, else the studio's own, with what is in the paste. */
export function fluxOf(db: Db, { row }: Pick<HeatContext, 'row'>, said: HeatFlux | null = row.flux): FluxOfHeat {
  const { benchFlux, flux } = getSettings(db);
  const { name, fluoride } = said ?? benchFlux;
  const ofPaste = productOf(db, row)?.fluxFluoride ?? null;
  return {
    name,
    fluoride,
    boraxFraction: flux.boraxFraction,
    ofPaste,
    mayHoldFluoride: fluoride !== 'no' || (ofPaste ?? 'no') !== 'no',
  };
}

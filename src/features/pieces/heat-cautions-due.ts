import { CAUTIONS, type Caution } from '../../../shared/cautions/caution-table.ts';
import { heatCautions } from '../../../shared/cautions/heat-cautions.ts';
import { mayGiveFume } from '../../../shared/materials/metal.ts';
import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { HeatFlux } from '../../platform/db/json-columns.ts';
import { startOfDay } from '../../platform/wall-time.ts';
import { getSettings } from '../settings/index.ts';
import { mayHoldCadmium } from './cadmium-in-fire.ts';
import { fluxOf } from './heat-flux.ts';
import { jointsInFire, unknownSolderIn, type HeatContext } from './heat-context.ts';
import { lastTickOf } from './heats.store.ts';

export interface ShownCaution extends Caution {
  /** This person has to read and tick it before the heat is primed. */
  due: boolean;
}

/**
 * The cautions of a heat, for the person who stands at it.
 *
 * @param flux the one it is made ready with now; else as the heat has it
 */
export function cautionsDue(
  db: Db,
  heat: HeatContext,
  { personId, at, flux }: { personId: string; at: Date; flux?: HeatFlux | undefined },
): ShownCaution[] {
  const { timeZone } = getSettings(db);
  const day = dateInZone(at, timeZone);
  // A heat of yesterday that comes late is held to what was ticked till then.
  const before = startOfDay(addDays(day, 1), timeZone).toISOString();
  const isTickedNow = heat.row.readiness !== null && heat.row.primedBy === personId;
  return cautionsOf(db, heat, flux).map((caution) => {
    const last = lastTickOf(db, { personId, cautionId: caution.id, before });
    const today = last !== undefined && dateInZone(new Date(last.at), timeZone) === day;
    const isDue: Readonly<Record<Caution['tick'], boolean>> = {
      each_time: !isTickedNow,
      once_a_day: !today,
      once_a_person: last?.words !== caution.words,
      blocks: false,
    };
    return { ...caution, due: isDue[caution.tick] };
  });
}

/** The cautions that belong to a heat, in the order of the table. */
export function cautionsOf(db: Db, heat: HeatContext, flux?: HeatFlux): Caution[] {
  const ids = new Set([...heatCautions(factsOf(db, heat, flux)).map(({ id }) => id), ...(heat.checked?.cautions ?? [])]);
  return CAUTIONS.filter(({ id }) => ids.has(id));
}

function factsOf(db: Db, heat: HeatContext, flux: HeatFlux | undefined) {
  const { boraxFraction, mayHoldFluoride } = fluxOf(db, heat, flux);
  const { plan, planned, partsInFire } = heat;
  const joints = jointsInFire(db, heat);
  return {
    cadmiumInDoubt: joints.some(mayHoldCadmium),
    unknownSolder: unknownSolderIn(joints).length > 0,
    fumingMetal: partsInFire.some(({ metal }) => mayGiveFume(metal)),
    boraxFraction,
    fluorideInDoubt: mayHoldFluoride,
    hollow: partsInFire.some(({ hollow }) => hollow !== undefined),
    heatShy: partsInFire.some(({ maxC }) => maxC !== undefined),
    steel: (planned.protections ?? []).some((each) => each.kind === 'sink' && each.sink !== 'wet_pack'),
    support: planned.support ?? plan.bench.support,
  };
}

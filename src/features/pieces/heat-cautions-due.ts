import { CAUTIONS, type Caution } from '../../../shared/cautions/caution-table.ts';
import { heatCautions } from '../../../shared/cautions/heat-cautions.ts';
import { mayGiveFume } from '../../../shared/materials/metal.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { mayHoldCadmium } from './cadmium-in-fire.ts';
import { jointsInFire, type HeatContext } from './heat-context.ts';
import { ticksOf } from './heats.store.ts';

export interface ShownCaution extends Caution {
  /** This person has to read and tick it before the heat is primed. */
  due: boolean;
}

/** The cautions of a heat, for the person who stands at it. */
export function cautionsDue(db: Db, heat: HeatContext, { personId, at }: { personId: string; at: Date }): ShownCaution[] {
  const ids = new Set([...heatCautions(factsOf(db, heat)).map(({ id }) => id), ...(heat.checked?.cautions ?? [])]);
  const { timeZone } = getSettings(db);
  const lastTick = new Map(ticksOf(db, personId).map((tick) => [tick.cautionId, tick.at]));
  const isTickedNow = heat.row.readiness !== null && heat.row.primedBy === personId;
  return CAUTIONS.filter(({ id }) => ids.has(id)).map((caution) => {
    const last = lastTick.get(caution.id);
    const today = last !== undefined && dateInZone(new Date(last), timeZone) === dateInZone(at, timeZone);
    const isDue: Readonly<Record<Caution['tick'], boolean>> = {
      each_time: !isTickedNow,
      once_a_day: !today,
      once_a_person: last === undefined,
      blocks: false,
    };
    return { ...caution, due: isDue[caution.tick] };
  });
}

function factsOf(db: Db, heat: HeatContext) {
  const { plan, planned, partsInFire } = heat;
  const joints = jointsInFire(db, heat);
  return {
    cadmiumInDoubt: joints.some(mayHoldCadmium),
    unknownSolder: joints.some(({ state, solder }) => state === 'doubtful' && solder === null),
    fumingMetal: partsInFire.some(({ metal }) => mayGiveFume(metal)),
    boraxFraction: getSettings(db).flux.boraxFraction,
    hollow: partsInFire.some(({ hollow }) => hollow !== undefined),
    heatShy: partsInFire.some(({ maxC }) => maxC !== undefined),
    steel: (planned.protections ?? []).some((each) => each.kind === 'sink' && each.sink !== 'wet_pack'),
    support: planned.support ?? plan.bench.support,
  };
}

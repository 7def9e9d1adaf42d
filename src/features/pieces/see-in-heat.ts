import type { z } from 'zod';
import { holdToTimes, type ObservedTimes } from '../../../shared/thermal/calibration/observation.ts';
import type { Db } from '../../platform/db/client.ts';
import type { WrittenBy } from '../../platform/http/actor.ts';
import { aheadErrors } from '../../platform/http/not-yet.ts';
import { invalidFields, Problem } from '../../platform/http/problem.ts';
import type { HeatContext } from './heat-context.ts';
import { UNDER_WAY, writeHeat } from './heat-state.ts';
import type { HeatSighting } from './heats.schema.ts';
import type { HeatRow } from './heats.store.ts';
import { nameOf } from './prime-heat.ts';

const SEEN = { flux_clear: 'secondsToFluxClear', flow: 'secondsToFlow' } as const satisfies Record<string, keyof ObservedTimes>;

/** One tap when the flux clears, one when the solder flows: seconds since the heat was lit. A second tap of a kind changes nothing. */
export function seeInHeat(tx: Db, by: WrittenBy, heat: HeatContext, { saw, occurredAt }: z.infer<typeof HeatSighting>): HeatRow {
  const { row } = heat;
  if (row.alightAt === null || !UNDER_WAY.includes(row.state)) {
    const says = `it is ${row.state.replaceAll('_', ' ')}: what is seen is noted between lighting it and saying what came of it`;
    throw new Problem('condition-not-met', `Cannot note what was seen in ${nameOf(heat)}: ${says}`, { missing: [says] });
  }
  if (row.observed?.[SEEN[saw]] !== undefined) return row;
  const seconds = Math.round((Date.parse(occurredAt) - Date.parse(row.alightAt)) / 100) / 10;
  const early =
    seconds > 0 ? [] : [{ pointer: '/occurredAt', detail: `It was lit at ${row.alightAt}, not before that.`, given: occurredAt }];
  const errors = [...aheadErrors('/occurredAt', occurredAt, by.at), ...early];
  if (errors.length > 0) throw invalidFields(errors);
  const observed = { ...row.observed, [SEEN[saw]]: seconds };
  holdToTimes(observed, nameOf(heat));
  return writeHeat(tx, by, row, { observed });
}

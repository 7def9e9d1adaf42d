import type { ObservedHeat } from '../../../shared/thermal/calibration/observation.ts';
import type { Db } from '../../platform/db/client.ts';
import { heatContext } from './heat-context.ts';
import { findHeat } from './heats.store.ts';
import { basisOfPlan } from './plan-basis.ts';
import { nameOf } from './prime-heat.ts';

export interface HeatSeen {
  number: string;
  litBy: string | null;
  /** Of the book; undefined where the plan named none. */
  torchId: string | undefined;
  /** Null where no times were noted. */
  observation: ObservedHeat | null;
}

/** A heat as it was worked, with the times that were noted of it. */
export function findObservedHeat(db: Db, id: string): HeatSeen | undefined {
  const row = findHeat(db, id);
  if (!row) return undefined;
  const heat = heatContext(db, row);
  const { plan, planned } = heat;
  const { litBy, position, observed } = row;
  const { support, torchId } = plan.bench;
  return {
    number: nameOf(heat),
    litBy,
    torchId,
    observation: observed && {
      design: basisOfPlan(db, plan).state.design,
      plan: plan.body,
      heat: position,
      support: planned.support ?? support,
      solders: plan.solders,
      ...observed,
    },
  };
}

import type { Db } from '../../platform/db/client.ts';
import { mayHoldCadmium } from './cadmium-in-fire.ts';
import { getHeat, jointsInFire } from './heat-context.ts';
import { hasTutorsYes } from './plan-reply.ts';

/** What of a fire is dangerous not to know. */
export interface FireFacts {
  /** Joints in it whose solder holds cadmium or may hold it: the heat is blocked for everyone. */
  cadmium: { joint: string; standing: string }[];
  /** Joints in it of which nobody knows the solder. */
  unknownSolder: string[];
  vents: { part: string; ventMm: number }[];
  limits: { part: string; maxC: number; peakC: number | null }[];
  /** Steel holds the work, and comes off before the pickle. */
  ironOn: boolean;
  quench: 'air' | 'water';
  /** Of the plan: signed by a tutor, or made by one. */
  tutorsYes: boolean;
}

export function fireFacts(db: Db, heatId: string): FireFacts {
  const heat = getHeat(db, heatId);
  const joints = jointsInFire(db, heat);
  const { partsInFire, checked, plan, planned } = heat;
  const vents = partsInFire.flatMap(({ id, hollow }) => (hollow ? [{ part: id, ventMm: hollow.ventMm }] : []));
  const limits = partsInFire.flatMap(({ id, maxC }) =>
    maxC === undefined ? [] : [{ part: id, maxC, peakC: checked?.parts.find(({ part }) => part === id)?.peakC ?? null }],
  );
  return {
    cadmium: joints.filter(mayHoldCadmium).map(({ jointId, cadmiumStanding }) => ({ joint: jointId, standing: cadmiumStanding })),
    unknownSolder: joints.filter(({ state, solder }) => state === 'doubtful' && solder === null).map(({ jointId }) => jointId),
    vents,
    limits,
    ironOn: (planned.protections ?? []).some((each) => each.kind === 'sink' && each.sink !== 'wet_pack'),
    quench: vents.length > 0 || limits.length > 0 ? 'air' : 'water',
    tutorsYes: hasTutorsYes(db, plan),
  };
}

import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { mayHoldCadmium } from './cadmium-in-fire.ts';
import { getHeat, jointsInFire, unknownSolderIn } from './heat-context.ts';
import { isLearner } from './guess-first.ts';
import { findTutorYes } from './guesses.store.ts';

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
  /** A tutor has said yes to this heat for the person asking, or they need none. */
  tutorsYes: boolean;
}

export function fireFacts(db: Db, actor: Actor, heatId: string): FireFacts {
  const heat = getHeat(db, heatId);
  const joints = jointsInFire(db, heat);
  const { partsInFire, checked, planned } = heat;
  const vents = partsInFire.flatMap(({ id, hollow }) => (hollow ? [{ part: id, ventMm: hollow.ventMm }] : []));
  const limits = partsInFire.flatMap(({ id, maxC }) =>
    maxC === undefined ? [] : [{ part: id, maxC, peakC: checked?.parts.find(({ part }) => part === id)?.peakC ?? null }],
  );
  return {
    cadmium: joints.filter(mayHoldCadmium).map(({ jointId, cadmiumStanding }) => ({ joint: jointId, standing: cadmiumStanding })),
    unknownSolder: unknownSolderIn(joints),
    vents,
    limits,
    ironOn: (planned.protections ?? []).some((each) => each.kind === 'sink' && each.sink !== 'wet_pack'),
    quench: vents.length > 0 || limits.length > 0 ? 'air' : 'water',
    tutorsYes: !isLearner(actor) || findTutorYes(db, heatId, actor.personId) !== undefined,
  };
}

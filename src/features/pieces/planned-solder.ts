import { placeSolder } from '../../../shared/costing/solder-use.ts';
import type { Design } from '../../../shared/design/design.ts';
import { expandDesign } from '../../../shared/design/expand-design.ts';
import type { Heat, Plan } from '../../../shared/design/plan.ts';
import type { Solder } from '../../../shared/design/solder.ts';
import { learnedTrim, type Settings } from '../settings/index.ts';
import { toTenthMg } from '../stock/index.ts';

/** Solder that one joint takes in the heat that makes it. */
export interface PlannedSolder {
  /** Position of the heat in its plan, from 1. */
  position: number;
  joint: string;
  solder: string;
  tenthMg: number;
  /** Chips it is laid on in. */
  pieces: number;
}

export interface SolderTerms {
  solders: readonly Solder[];
  /** Of joints that say none of their own, by solder. */
  trims: Settings['solderTrims'];
}

/** What every joint of a plan takes, by the costing recipe, rounded once a joint to the 0.1 mg of the ledger. */
export function plannedSolder(design: Design, plan: Plan, terms: SolderTerms): PlannedSolder[] {
  const single = expandDesign(design).design;
  return plan.heats.flatMap((heat, index) =>
    solderOfHeat(single, heat, terms).map((placed) => ({ position: index + 1, ...placed })),
  );
}

/** The same of one heat. @param single the design with its copies of parts and joints spelled out */
export function solderOfHeat(
  single: Design,
  { joints, solder, purpose }: Heat,
  { solders, trims }: SolderTerms,
): Omit<PlannedSolder, 'position'>[] {
  if (solder === undefined || purpose === 'anneal') return [];
  const trimFraction = learnedTrim(trims, solder);
  const made = single.joints
    .filter(({ id }) => joints.includes(id))
    .map(({ made: _made, ...joint }) => ({ ...(trimFraction === undefined ? {} : { trimFraction }), ...joint, solder }));
  return placeSolder({ parts: single.parts, joints: made }, solders).map(({ joint, placedG }) => ({
    joint: joint.id,
    solder,
    tenthMg: toTenthMg(placedG.toNumber()),
    pieces: joint.pieces ?? 1,
  }));
}

/** A design, its solders and its rules as the plain question that the search answers. */

import { isHollowWare } from '../costing/operations-from-plan.ts';
import { USUAL_MINUTES } from '../costing/usual-minutes.ts';
import type { Design, Joint } from '../design/design.ts';
import { EngineInputError } from '../engine-input-error.ts';
import { partSolidusC } from '../materials/metal.ts';
import { flowTemperatureC } from '../thermal/flow-temperature.ts';
import { ANTI_FLOW_OVER_LIQUIDUS_K } from '../thermal/verdict.ts';
import type { MeansKind } from './heat-oracle.ts';
import { contactEndsOf, endsOf } from '../design/joint-ends.ts';
import type { PlanToCheck } from './plan-to-check.ts';
import type { Policy, ProtectionOption } from './plan-search-request.ts';
import { refusal, USUAL_JOINTS_PER_HEAT } from './rule-faults.ts';
import { MOST_OPEN_JOINTS, type HeatTime, type JointLimit, type SequenceProblem } from './sequence-problem.ts';

/** Where nothing is known of the solder of a joint that exists: the lowest solidus among usual silver solders. */
export const ASSUMED_SOLIDUS_C = 618;

/** Seconds for which anti-flow is taken to hold solder above its solidus in one heat. Assumed, without a source. */
export const ANTI_FLOW_BUDGET_S = 15;

const LEVEL_STEP_K = 5;

export interface DesignQuestion extends Omit<PlanToCheck, 'plan'> {
  policy: Policy;
  targetMarginK: number;
  protections: readonly ProtectionOption[];
}

/** The temperatures of the solder in a joint that exists; assumed where it is unknown. */
export function madeWith({ made }: Joint): { solidusC: number; liquidusC: number } {
  if (made && made.solder !== 'unknown') return made.solder;
  const solidusC = made?.assumedSolidusC ?? ASSUMED_SOLIDUS_C;
  return { solidusC, liquidusC: made?.assumedLiquidusC ?? solidusC };
}

function limitOf(
  { policy, bench }: DesignQuestion,
  { load = 'none' }: Joint,
  solder: { solidusC: number; liquidusC: number },
): JointLimit {
  const riseK = bench.riseK ?? 0;
  const secondsOverC = solder.solidusC + riseK;
  if (policy === 'stay_solid' || load !== 'none') return { limitC: secondsOverC, held: null };
  const limitC = solder.liquidusC + riseK;
  const budgetS = bench.antiFlowBudgetS ?? ANTI_FLOW_BUDGET_S;
  return { limitC, held: { limitC: limitC + ANTI_FLOW_OVER_LIQUIDUS_K, secondsOverC, budgetS } };
}

/** Why a joint cannot be made with a solder on this piece at all; null where it can. */
export function unfit(question: DesignQuestion, joint: Joint, solderId: string): string | null {
  const { design, solders, solderNeedG } = question;
  const solder = solders.find(({ id }) => id === solderId)!;
  const ruled = refusal(question, joint.id, solderId);
  if (ruled !== null) return ruled;
  if (solder.cadmiumStanding === 'yes' || solder.cadmiumStanding === 'unknown') {
    return `the cadmium standing of ${solderId} is ${solder.cadmiumStanding}`;
  }
  const needG = solderNeedG?.(joint.id, solderId) ?? 0;
  if (needG > (solder.availableG ?? Infinity))
    return `it takes ${needG.toFixed(4)} g of ${solderId}; ${solder.availableG} g may be used`;
  for (const id of endsOf(joint)) {
    const part = design.parts.find((each) => each.id === id)!;
    const solidusC = partSolidusC(part);
    const limitC = Math.min(solidusC, part.maxC ?? Infinity);
    const flowC = flowTemperatureC(solder.liquidusC, solidusC);
    if (flowC > limitC) return `${solderId} is brought to ${Math.round(flowC)} °C; ${id} may reach ${Math.round(limitC)} °C`;
  }
  return null;
}

const byId = (a: { id: string }, b: { id: string }): number => Number(a.id > b.id) - Number(a.id < b.id);

/**
 * The plain problem of a design under one policy.
 *
 * @throws {EngineInputError} for more open joints than the search can tell apart
 */
export function designProblem(question: DesignQuestion): SequenceProblem {
  const { design, solders, physics, solderNeedG } = question;
  const open = design.joints.filter(({ made }) => !made).sort(byId);
  if (open.length > MOST_OPEN_JOINTS)
    throw new EngineInputError('open joints', open.length, `at most ${MOST_OPEN_JOINTS} for a search`);
  const grades = [...solders].sort((a, b) => b.liquidusC - a.liquidusC || byId(a, b));
  const liquidus = [...new Set(grades.map(({ liquidusC }) => liquidusC))];
  const index = new Map(open.map(({ id }, j) => [id, j]));
  const indexesOf = (ids: readonly string[]): number[] => [...new Set(ids)].flatMap((id) => index.get(id) ?? []);
  const {
    before = [],
    sameHeat = [],
    notSameHeat = [],
    maxSpreadMm = Infinity,
    maxJointsPerHeat = USUAL_JOINTS_PER_HEAT,
  } = design.rules ?? {};
  const far = (a: string, b: string): boolean => maxSpreadMm < Infinity && physics.distanceMm(design, a, b) > maxSpreadMm;
  const apart = open.map(({ id }) => {
    const ruled = notSameHeat.filter((group) => group.includes(id)).flat();
    const distant = open.map((other) => other.id).filter((other) => far(id, other));
    return indexesOf([...ruled, ...distant].filter((other) => other !== id));
  });
  return {
    joints: open.map((joint) => ({
      id: joint.id,
      parts: endsOf(joint),
      allowed: grades.reduce((mask, { id }, g) => (unfit(question, joint, id) === null ? mask | (1 << g) : mask), 0),
      limits: grades.map((solder) => limitOf(question, joint, solder)),
      needG: grades.map(({ id }) => solderNeedG?.(joint.id, id) ?? 0),
    })),
    made: design.joints
      .filter(({ made }) => made)
      .sort(byId)
      .map((joint) => ({ id: joint.id, parts: endsOf(joint), limit: limitOf(question, joint, madeWith(joint)) })),
    parts: design.parts.map((part) => ({
      id: part.id,
      limitC: part.maxC ?? Infinity,
      closes: part.hollow?.ventMm === 0,
    })),
    contacts: (design.contacts ?? []).map(contactEndsOf),
    grades: grades.map(({ id, liquidusC, availableG = Infinity }) => ({
      id,
      rank: liquidus.indexOf(liquidusC),
      availableG,
    })),
    after: open.map(({ id }) => indexesOf(before.filter(([earlier]) => earlier === id).map(([, later]) => later))),
    together: sameHeat.map(indexesOf).filter((group) => group.length > 0),
    apart,
    maxJointsPerHeat,
    maxMeans: maxMeans(question.protections),
    margin: { leastK: 0, targetK: question.targetMarginK, stepK: LEVEL_STEP_K },
    heatTime: heatTimeOf(design),
  };
}

/** Hands-on seconds as costing takes them: a heat, pickle and look, each protection. */
function heatTimeOf(design: Design): HeatTime {
  const heatMin = (isHollowWare(design) ? USUAL_MINUTES.heat_hollow_ware : USUAL_MINUTES.heat).usual + USUAL_MINUTES.pickle.usual;
  return { heatS: 60 * heatMin, jointS: 0, partS: 0, protectionS: 60 * USUAL_MINUTES.protect.usual };
}

function maxMeans(protections: readonly ProtectionOption[]): Record<MeansKind, number> {
  const most = (kind: MeansKind): number => {
    const option = protections.find((each) => each.kind === kind);
    return option ? (option.maxPerHeat ?? 1) : 0;
  };
  return {
    flame_away: Math.min(1, most('flame_away')),
    shield: most('shield'),
    sink: most('sink'),
    anti_flow: most('anti_flow'),
  };
}

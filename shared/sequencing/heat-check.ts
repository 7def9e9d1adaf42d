/** One heat of a plan through the heat model: what it does to every earlier joint and every part, and what of that is a problem. */

import type { Heat } from '../design/plan.ts';
import type { Solder } from '../design/solder.ts';
import { partSolidusC } from '../materials/metal.ts';
import { secondsAbove, type HeatQuestion, type SolderRun, type TemperatureHistory } from '../thermal/heat-run.ts';
import { thinHistory } from '../thermal/thin-history.ts';
import { toFive } from '../thermal/to-five.ts';
import { judgeJoint, judgePart } from '../thermal/verdict.ts';
import { ANTI_FLOW_BUDGET_S, madeWith } from './design-problem.ts';
import { endsOf } from '../design/joint-ends.ts';
import { fireOf } from './piece-graph.ts';
import type { EarlierJoint, HeatCheck, HeatHistory, PlanProblem, WarmedPart } from './plan-check-answer.ts';
import { isAnneal, type PlanToCheck } from './plan-to-check.ts';

/** Sterling is annealed at about 650 °C. @source common bench practice; brought to flow "10 K over" as every target is. */
const ANNEAL = { id: 'anneal', liquidusC: 640 };

const GLOWING_C = 600;

export type CheckContext = Omit<PlanToCheck, 'plan' | 'given'>;

export type FoundProblem = Omit<PlanProblem, 'bestFix'>;

export interface CheckedHeats {
  heats: HeatCheck[];
  problems: FoundProblem[];
}

/**
 * A generator: it yields after every heat, for a host to do other work in between.
 *
 * @param heats in the ids of the expanded design, without a structural fault
 */
export function* checkHeats(context: CheckContext, heats: readonly Heat[]): Generator<void, CheckedHeats> {
  const { design, solders } = context;
  const solderOf = new Map<string, { solidusC: number; liquidusC: number }>();
  for (const joint of design.joints) if (joint.made) solderOf.set(joint.id, madeWith(joint));
  const checked: HeatCheck[] = [];
  const problems: FoundProblem[] = [];
  for (const [i, heat] of heats.entries()) {
    const solder = solders.find(({ id }) => id === heat.solder);
    const one = checkHeat(context, heat, i + 1, solderOf);
    checked.push(one);
    problems.push(...problemsOf(one, heat));
    if (!isAnneal(heat) && solder) for (const id of heat.joints) solderOf.set(id, solder);
    yield;
  }
  return { heats: checked, problems };
}

function checkHeat(
  context: CheckContext,
  heat: Heat,
  number: number,
  solderOf: ReadonlyMap<string, { solidusC: number; liquidusC: number }>,
): HeatCheck {
  const { design } = context;
  const named = { heat: number, joints: [...heat.joints], solder: heat.solder ?? null };
  if (heat.joints.length === 0) {
    const none = {
      flow: 'flows',
      flowC: null,
      settlesC: null,
      timeToFlowS: null,
      energyJ: null,
      targetSpreadK: null,
      says: null,
    } as const;
    return {
      ...named,
      inFire: [],
      ...none,
      earlierJoints: [],
      parts: [],
      cautions: ['C1'],
      ...(context.histories && { histories: [] }),
    };
  }
  const made = isAnneal(heat) ? [...solderOf.keys()].filter((id) => !heat.joints.includes(id)) : [...solderOf.keys()];
  const { inFire, bySolder } = context.physics.simulate(questionOf(context, heat, made));
  const run = bySolder[isAnneal(heat) ? ANNEAL.id : heat.solder!]!;
  const earlierJoints = earlierJointsOf(context, heat, run, solderOf);
  const parts = partsOf(context, heat, run);
  return {
    ...named,
    inFire: [...inFire],
    flow: run.flow,
    flowC: run.flowC,
    settlesC: run.settlesC,
    timeToFlowS: run.timeToFlowS,
    energyJ: run.energyJ,
    targetSpreadK: run.targetSpreadK ?? null,
    says: saysOfTargets(run),
    earlierJoints,
    parts,
    cautions: cautionsOf(design, heat, made, parts),
    ...(context.histories && { histories: historiesOf(run) }),
  };
}

/** Beyond this, several targets do not flow as one. */
const TOGETHER_K = 10;

function saysOfTargets({ flow, targetSpreadK = 0 }: SolderRun): string | null {
  if (targetSpreadK > TOGETHER_K)
    return `No way was found to play the flame so that all flow together: when the last flows, another is ${toFive(targetSpreadK)} °C hotter`;
  return flow === 'only_just' ? 'Flows only just: with a quarter less power it would not' : null;
}

function historiesOf({ targets = {}, joints, parts }: SolderRun): HeatHistory[] {
  return [
    ...Object.entries(targets).map(([id, history]) => thinned('target', id, history)),
    ...Object.entries(joints).map(([id, { history }]) => thinned('joint', id, history)),
    ...Object.entries(parts).flatMap(([id, { history }]) => (history ? [thinned('part', id, history)] : [])),
  ];
}

function thinned(of: HeatHistory['of'], id: string, history: TemperatureHistory): HeatHistory {
  return { of, id, ...thinHistory(history) };
}

function questionOf({ design, bench, solders, histories }: CheckContext, heat: Heat, made: readonly string[]): HeatQuestion {
  const targets = heat.joints;
  // Asked together for several targets, between which the flame is played, so that they come to what the search saw.
  const own = targets.length === 1 ? solders.filter(({ id }) => id === heat.solder) : solders;
  const asked: readonly Pick<Solder, 'id' | 'liquidusC'>[] = isAnneal(heat) ? [ANNEAL] : own;
  return {
    design,
    bench,
    targets,
    made: fireOf(design, made, targets).made,
    solders: asked,
    ...(histories ? { histories } : {}),
    ...(heat.flame ? { flame: heat.flame } : {}),
    ...(heat.protections ? { protections: heat.protections } : {}),
  };
}

function earlierJointsOf(
  { design, bench }: CheckContext,
  heat: Heat,
  run: SolderRun,
  solderOf: ReadonlyMap<string, { solidusC: number; liquidusC: number }>,
): EarlierJoint[] {
  const riseK = bench.riseK ?? 0;
  return Object.entries(run.joints).map(([id, { peakC, history }]) => {
    const { solidusC, liquidusC } = solderOf.get(id)!;
    const secondsAboveSolidus = secondsAbove(history, solidusC + riseK);
    const guarded = (heat.protections ?? []).some((each) => each.kind === 'anti_flow' && each.guards === id);
    const judged = judgeJoint({
      peakC,
      solidusC,
      liquidusC,
      flowC: run.flowC,
      riseK,
      calibrated: bench.calibration !== undefined && bench.calibration !== null,
      secondsAboveSolidus,
      load: design.joints.find((joint) => joint.id === id)!.load ?? 'none',
      ...(guarded ? { antiFlow: { budgetS: bench.antiFlowBudgetS ?? ANTI_FLOW_BUDGET_S } } : {}),
    });
    return {
      joint: id,
      peakC,
      uncertaintyK: judged.uncertaintyK,
      solidMarginK: judged.solidMarginK,
      runMarginK: judged.runMarginK,
      secondsAboveSolidus,
      secondsAboveLiquidus: secondsAbove(history, liquidusC + riseK),
      verdict: judged.verdict,
      severity: judged.severity,
      says: judged.says,
    };
  });
}

function partsOf({ design }: CheckContext, heat: Heat, run: SolderRun): WarmedPart[] {
  const targeted = new Set(design.joints.filter(({ id }) => heat.joints.includes(id)).flatMap((joint) => endsOf(joint)));
  return design.parts.flatMap((part): WarmedPart[] => {
    const warmed = run.parts[part.id];
    if (!warmed) return [];
    const solidusC = partSolidusC(part);
    const limitC = Math.min(solidusC, part.maxC ?? Infinity);
    const { peakC } = warmed;
    const isBroughtThere = targeted.has(part.id) && limitC === solidusC;
    const { verdict, severity, says } = judgePart({
      peakC,
      limitC,
      ...(isBroughtThere ? { targetFlowC: run.flowC } : {}),
    });
    return [{ part: part.id, peakC, limitC, verdict, severity, says }];
  });
}

function cautionsOf(design: PlanToCheck['design'], heat: Heat, made: readonly string[], parts: readonly WarmedPart[]): string[] {
  const inFire = design.parts.filter(({ id }) => parts.some(({ part }) => part === id));
  const after = new Set([...made, ...heat.joints]);
  const closes = inFire.some(
    ({ id, hollow }) =>
      hollow?.ventMm === 0 && design.joints.every((joint) => !endsOf(joint).includes(id) || after.has(joint.id)),
  );
  const cautions = ['C1'];
  if (parts.some(({ peakC }) => peakC > GLOWING_C)) cautions.push('C2');
  if (inFire.some(({ hollow }) => hollow)) cautions.push('C8');
  if (closes) cautions.push('C9');
  if (inFire.some(({ maxC }) => maxC !== undefined)) cautions.push('C10');
  return cautions;
}

/** What a heat asks to be minded that is no problem: joints and parts, and targets that flow only just. */
export function cautionsIn({ joints, flow, targetSpreadK, earlierJoints, parts }: HeatCheck): string[] {
  const minded = [
    ...earlierJoints.map(({ joint, severity }) => [joint, severity]),
    ...parts.map(({ part, severity }) => [part, severity]),
  ];
  return [
    ...(flow === 'only_just' || (targetSpreadK ?? 0) > TOGETHER_K ? joints.slice(0, 1) : []),
    ...minded.flatMap(([id, severity]) => (severity === 'caution' ? [id!] : [])),
  ];
}

function problemsOf({ heat, flow, settlesC, earlierJoints, parts }: HeatCheck, { joints }: Heat): FoundProblem[] {
  const problems: FoundProblem[] = [];
  if (flow === 'does_not_flow') {
    const settles = settlesC === null ? '' : `: it settles at about ${toFive(settlesC)} °C`;
    problems.push({
      heat,
      joint: joints[0]!,
      part: null,
      rule: 'does_not_flow',
      says: `${joints.join(', ')} is predicted not to flow${settles}`,
    });
  }
  for (const { joint, verdict, severity, says } of earlierJoints) {
    if (severity === 'problem' && verdict !== 'stays_solid')
      problems.push({ heat, joint, part: null, rule: verdict, says: `${joint}: ${says}` });
  }
  for (const { part, severity, says } of parts) {
    if (severity === 'problem') problems.push({ heat, joint: null, part, rule: 'over_limit', says: `${part}: ${says}` });
  }
  return problems;
}

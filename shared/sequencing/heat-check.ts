/** One heat of a plan through the heat model: what it does to every earlier joint and every part, and what of that is a problem. */

import { pieceWeight } from '../forms/piece-weight.ts';
import { endsOf } from '../design/joint-ends.ts';
import type { Heat } from '../design/plan.ts';
import { partSolidusC } from '../materials/metal.ts';
import { secondsAbove, type SolderRun, type TemperatureHistory } from '../thermal/heat-run.ts';
import { thinHistory } from '../thermal/thin-history.ts';
import { toFive } from '../thermal/to-five.ts';
import { benchOfHeat, isOnOtherTorch, torchOf } from '../thermal/torch.ts';
import { judgeJoint, judgePart } from '../thermal/verdict.ts';
import { ANTI_FLOW_BUDGET_S } from './design-problem.ts';
import { jointsBefore, playPlanned, type CheckContext, type MadeJoints } from './heat-question.ts';
import type { EarlierJoint, HeatCheck, HeatHistory, PlanProblem, WarmedPart } from './plan-check-answer.ts';
import type { PlanToCheck } from './plan-to-check.ts';

const GLOWING_C = 600;

/** Over the temperature the target is brought to, a part runs ahead of it. */
const AHEAD_K = 20;

export type FoundProblem = Omit<PlanProblem, 'bestFix' | 'helps' | 'nothingHelps'>;

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
  const checked: HeatCheck[] = [];
  const problems: FoundProblem[] = [];
  for (const [i, heat] of heats.entries()) {
    const one = checkHeat(context, heat, i + 1, jointsBefore(context, heats, i));
    checked.push(one);
    problems.push(...problemsOf(one));
    yield;
  }
  return { heats: checked, problems };
}

/** @param before the joints made before it */
export function checkHeat(context: CheckContext, heat: Heat, number: number, before: MadeJoints): HeatCheck {
  const bench = benchOfHeat(context.bench, heat);
  const named = {
    heat: number,
    joints: [...heat.joints],
    solder: heat.solder ?? null,
    torch: torchOf(bench),
    support: bench.support,
    calibrated: isCalibrated(bench),
  };
  if (heat.joints.length === 0) {
    const none = {
      flow: 'flows',
      flowC: null,
      settlesC: null,
      timeToFlowS: null,
      energyJ: null,
      storedJ: null,
      lostJ: null,
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
  const { made, inFire, run } = playPlanned(context, heat, before);
  const parts = partsOf(context, heat, run);
  return {
    ...named,
    inFire: [...inFire],
    flow: run.flow,
    flowC: run.flowC,
    settlesC: run.settlesC,
    timeToFlowS: run.timeToFlowS,
    energyJ: run.energyJ,
    storedJ: run.storedJ,
    lostJ: run.lostJ,
    targetSpreadK: run.targetSpreadK ?? null,
    says: saysOf(context, heat, run),
    earlierJoints: earlierJointsOf(context, heat, run, before),
    parts,
    cautions: cautionsOf(context.design, heat, made, parts),
    ...(context.histories && { histories: historiesOf(run) }),
  };
}

const isCalibrated = ({ calibration }: CheckContext['bench']): boolean => calibration !== undefined && calibration !== null;

/** Beyond this, several targets do not flow as one. */
const TOGETHER_K = 10;

function saysOf({ bench }: CheckContext, heat: Heat, { flow, targetSpreadK = 0 }: SolderRun): string | null {
  const says: string[] = [];
  if (targetSpreadK > TOGETHER_K)
    says.push(
      `No way was found to play the flame so that all flow together: when the last flows, another is ${toFive(targetSpreadK)} °C hotter`,
    );
  else if (flow === 'only_just') says.push('Flows only just: with a quarter less power it would not');
  if (isCalibrated(bench) && isOnOtherTorch(bench, heat))
    says.push("Not on the bench's torch: its calibration does not count, so this is less sure");
  return says.length > 0 ? says.join('. ') : null;
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

function earlierJointsOf({ design, bench }: CheckContext, heat: Heat, run: SolderRun, before: MadeJoints): EarlierJoint[] {
  const calibrated = isCalibrated(benchOfHeat(bench, heat));
  const riseK = bench.riseK ?? 0;
  return Object.entries(run.joints).map(([id, { peakC, history }]) => {
    const { solidusC, liquidusC } = before.get(id)!;
    const secondsAboveSolidus = secondsAbove(history, solidusC + riseK);
    const guarded = (heat.protections ?? []).some((each) => each.kind === 'anti_flow' && each.guards === id);
    const judged = judgeJoint({
      peakC,
      solidusC,
      liquidusC,
      flowC: run.flowC,
      riseK,
      calibrated,
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
    const judged = judgePart({ peakC, limitC, ...(isBroughtThere ? { targetFlowC: run.flowC } : {}) });
    const aheadK = run.flow !== 'does_not_flow' && peakC - run.flowC > AHEAD_K ? peakC - run.flowC : null;
    const says = aheadK === null ? judged.says : `${judged.says}. ${saysAhead(design, run, part.id, aheadK)}`;
    const severity = aheadK !== null && judged.severity === 'none' ? 'note' : judged.severity;
    return [{ part: part.id, peakC, limitC, aheadK, verdict: judged.verdict, severity, says }];
  });
}

function saysAhead(design: PlanToCheck['design'], run: SolderRun, id: string, aheadK: number): string {
  const massesG = pieceWeight(design).parts.filter(({ part }) => run.parts[part]);
  const ownG = massesG.find(({ part }) => part === id)!.massG;
  const isLight = massesG.some(({ massG }) => massG > ownG);
  const ahead = `Runs ahead: about ${toFive(aheadK)} °C hotter than the joint`;
  return isLight ? `${ahead}; keep the flame on the heavier part` : `${ahead}; keep the flame on the joint`;
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

export function problemsOf({ heat, joints, flow, flowC, settlesC, earlierJoints, parts }: HeatCheck): FoundProblem[] {
  const problems: FoundProblem[] = [];
  if (flow === 'does_not_flow') {
    const settles = settlesC === null ? '' : `: it settles at about ${toFive(settlesC)} °C`;
    problems.push({
      heat,
      joint: joints[0]!,
      part: null,
      rule: 'does_not_flow',
      peakC: settlesC,
      limitC: flowC,
      marginK: settlesC === null || flowC === null ? null : settlesC - flowC,
      uncertaintyK: null,
      says: `${joints.join(', ')} is predicted not to flow${settles}`,
    });
  }
  for (const { joint, verdict, severity, peakC, uncertaintyK, solidMarginK, runMarginK, says } of earlierJoints) {
    if (severity !== 'problem' || verdict === 'stays_solid') continue;
    const marginK = verdict === 'softens' || verdict === 'may_soften' ? solidMarginK : runMarginK;
    const limits = { peakC, limitC: peakC + marginK, marginK, uncertaintyK };
    problems.push({ heat, joint, part: null, rule: verdict, ...limits, says: `${joint}: ${says}` });
  }
  for (const { part, peakC, limitC, severity, says } of parts) {
    if (severity !== 'problem') continue;
    const limits = { peakC, limitC, marginK: limitC - peakC, uncertaintyK: null };
    problems.push({ heat, joint: null, part, rule: 'over_limit', ...limits, says: `${part}: ${says}` });
  }
  return problems;
}

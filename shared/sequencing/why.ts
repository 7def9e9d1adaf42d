/** Why each heat stands where it does: one line each, from the numbers of its check. */

import type { Heat } from '../design/plan.ts';
import { toFive } from '../thermal/to-five.ts';
import { judgeJoint } from '../thermal/verdict.ts';
import { benchOfHeat } from '../thermal/torch.ts';
import type { CheckContext } from './heat-question.ts';
import type { EarlierJoint, HeatCheck } from './plan-check-answer.ts';
import { fireOf } from './piece-graph.ts';
import { isAnneal } from './plan-to-check.ts';

const sizeK = (differenceK: number): number => toFive(Math.abs(differenceK));

function leaves({ joint, verdict, solidMarginK, runMarginK }: EarlierJoint): string {
  switch (verdict) {
    case 'stays_solid':
    case 'may_soften':
      return `${joint} is left about ${sizeK(solidMarginK)} °C under its solidus`;
    case 'softens':
      return `${joint} softens, about ${sizeK(runMarginK)} °C short of running`;
    case 'held':
      return `${joint} is held by anti-flow`;
    case 'may_run':
      return `${joint} may run, about ${sizeK(runMarginK)} °C short of it`;
    case 'runs':
      return `${joint} runs, about ${sizeK(runMarginK)} °C over its liquidus`;
  }
}

const WORDS = {
  runs: 'would run',
  may_run: 'may run',
  held: 'would be held',
  softens: 'would soften',
  may_soften: 'may soften',
  stays_solid: 'would stay solid too',
} as const;

/** @param heats in the ids of the expanded design, the plan that was checked */
export function whyLines(context: CheckContext, heats: readonly Heat[], checks: readonly HeatCheck[]): string[] {
  return heats.map((heat, i) => {
    const { earlierJoints, flow } = checks[i]!;
    const made = isAnneal(heat) ? `${heat.joints.join(', ')} annealed` : `${heat.joints.join(', ')} with ${heat.solder}`;
    const head = `Heat ${i + 1}, ${made}`;
    if (flow === 'does_not_flow') return `${head}: predicted not to flow with this torch`;
    const tightest = [...earlierJoints].sort((a, b) => a.solidMarginK - b.solidMarginK)[0];
    if (!tightest) return `${head}: no earlier joint is in the fire`;
    const guarded = (heat.protections?.length ?? 0) + (heat.flame?.awayFrom === undefined ? 0 : 1);
    const helped = guarded === 0 ? '' : `, with ${guarded === 1 ? 'one protection' : `${guarded} protections`}`;
    const reversed = isAnneal(heat) ? '' : otherWayRound(context, heats, i, tightest.joint);
    return `${head}: ${leaves(tightest)}${helped}${reversed}`;
  });
}

/** What the heat of the earlier joint would do to this one, were this made first. */
function otherWayRound(
  { design, solders, bench, physics }: CheckContext,
  heats: readonly Heat[],
  i: number,
  earlier: string,
): string {
  const e = heats.findIndex(({ joints, purpose }, k) => k < i && purpose !== 'anneal' && joints.includes(earlier));
  if (e < 0) return '';
  const heat = heats[i]!;
  const solder = solders.find(({ id }) => id === heat.solder)!;
  const before = [
    ...design.joints.filter(({ made }) => made).map(({ id }) => id),
    ...heats.slice(0, i).flatMap(({ joints, purpose }, k) => (k === e || purpose === 'anneal' ? [] : joints)),
    ...heat.joints,
  ];
  const targets = heats[e]!.joints;
  const fire = fireOf(design, before, targets);
  if (fire.apart.length > 0 || !heat.joints.some((id) => fire.made.includes(id))) return '';
  const question = { design, bench: benchOfHeat(bench, heats[e]!), targets, made: fire.made, solders };
  const run = physics.simulate(question).bySolder[heats[e]!.solder!]!;
  const judged = heat.joints
    .filter((id) => run.joints[id])
    .map((id) => {
      const verdict = judgeJoint({
        peakC: run.joints[id]!.peakC,
        solidusC: solder.solidusC,
        liquidusC: solder.liquidusC,
        flowC: run.flowC,
        riseK: bench.riseK ?? 0,
        calibrated: (question.bench.calibration ?? null) !== null,
        secondsAboveSolidus: 0,
        load: 'none',
      });
      return { id, ...verdict };
    })
    .sort((a, b) => a.runMarginK - b.runMarginK)[0];
  return judged ? `; the other way round ${judged.id} ${WORDS[judged.verdict]}` : '';
}

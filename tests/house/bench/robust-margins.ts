/**
 * Three ways to say how much of a margin is left when flame, metal and hand are not as assumed, beside the 5 % quantile of drawn heats:
 * the margin itself, the margin less U, and the first-order margin m − 1.645·√Σ(∂m·σ)² from one heat for each assumption.
 */

import type { Design } from '../../../shared/design/design.ts';
import { heatModel } from '../../../shared/sequencing/heat-physics.ts';
import type { Policy } from '../../../shared/sequencing/plan-search-request.ts';
import { searchPlan } from '../../../shared/sequencing/search-plan.ts';
import { playHeat } from '../../../shared/thermal/heat-control.ts';
import type { HeatQuestion } from '../../../shared/thermal/heat-run.ts';
import { layHeat } from '../../../shared/thermal/heat-setup.ts';
import { uncertaintyK } from '../../../shared/thermal/uncertainty.ts';
import { DEMO_DESIGNS, heatOf } from '../../support/demo-heats.ts';
import { SOLDERS } from '../../support/heated-pieces.ts';
import { randomFrom } from '../../support/random-piece.ts';
import { round } from './measure.ts';
import { drawnProgram, MOST_CELLS, normals, UNCALIBRATED } from './uncertainty-draws.ts';

const SEED = 31;
/** Of each heat; a 5 % quantile of fewer says little. */
const DRAWS = 100;
/** Standard normal deviate of 5 %. */
const FIVE_PERCENT = 1.645;
/** What drawnProgram() draws for one heat. */
const ASSUMPTIONS = 12;

/** One earlier joint in one heat of a plan. */
interface Warmed {
  marginK: number;
  firstOrderK: number;
  lessUK: number;
  /** Of each draw; NaN where the heat did not flow. */
  drawnK: number[];
}

interface PlannedWarmth {
  name: string;
  policy: Policy;
  warmed: Warmed[];
  firstOrderMs: number;
  heats: number;
}

const WAYS = {
  'margin alone': ({ marginK }: Warmed) => marginK,
  'first order': ({ firstOrderK }: Warmed) => firstOrderK,
  'margin less U': ({ lessUK }: Warmed) => lessUK,
} as const;

function quantile(values: readonly number[], share: number): number {
  const sorted = values.filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
  return sorted[Math.floor(share * sorted.length)] ?? NaN;
}

/** Peaks of the earlier joints by their place in the piece; null where it does not flow. */
function peaksOf(question: HeatQuestion, normal: () => number): number[] | null {
  const [event] = playHeat(drawnProgram(question, UNCALIBRATED, normal)).flows;
  return event ? event.watched.map(({ peakC }) => peakC) : null;
}

/** One at its standard deviation, the others as they are assumed. */
function onlyOne(place: number): () => number {
  let call = 0;
  return () => Number(call++ === place);
}

/** @param limitOf of each earlier joint */
function warmedIn(
  question: HeatQuestion,
  limitOf: (joint: string) => number,
  normal: () => number,
): { warmed: Warmed[]; ms: number } | null {
  const laid = layHeat(question);
  const earlier = laid.piece.joints.map(({ id }) => id).filter((id) => !question.targets.includes(id));
  const planned = peaksOf(question, () => 0);
  if (!planned) return null;
  const begun = performance.now();
  const moved = Array.from({ length: ASSUMPTIONS }, (_, place) => peaksOf(question, onlyOne(place)));
  const ms = performance.now() - begun;
  const draws = Array.from({ length: DRAWS }, () => peaksOf(question, normal));
  const flowC = drawnProgram(question, UNCALIBRATED, () => 0).flowTemperaturesC[0]!;
  const warmed = earlier.map((id, w): Warmed => {
    const peakC = planned[w]!;
    const marginK = limitOf(id) - peakC;
    const variance = moved.reduce((sum, peaks) => sum + (peaks ? (peaks[w]! - peakC) ** 2 : 0), 0);
    return {
      marginK,
      firstOrderK: marginK - FIVE_PERCENT * Math.sqrt(variance),
      lessUK: marginK - uncertaintyK({ flowC, peakC, calibrated: false }),
      drawnK: draws.map((peaks) => (peaks ? limitOf(id) - peaks[w]! : NaN)),
    };
  });
  return { warmed, ms };
}

/** Plans of the demo pieces, one joint a heat and no protections, those with joints that may soften and those without. */
function plannedWarmths(): PlannedWarmth[] {
  const physics = heatModel();
  const plans: PlannedWarmth[] = [];
  for (const [name, whole] of Object.entries(DEMO_DESIGNS)) {
    const design: Design = { ...whole, rules: { ...whole.rules, maxJointsPerHeat: 1, sameHeat: [] } };
    const last = heatOf(design, design.joints.at(-1)!.id);
    if (layHeat(last).piece.cellCount > MOST_CELLS) continue;
    for (const policy of ['stay_solid', 'do_not_run'] as const) {
      const options = { policy, targetMarginK: 0, stopAt: 'grades' as const };
      const answer = searchPlan({ design, solders: SOLDERS, bench: last.bench, options }, { physics });
      // The least bad plan is looked at as well: it is one that U does not call clear.
      if (answer.outcome === 'faults' || !answer.plan) continue;
      const { heats } = answer.plan;
      const normal = normals(randomFrom(SEED));
      const solderOf = new Map(heats.flatMap(({ joints, solder }) => joints.map((id) => [id, solder!] as const)));
      const limitOf = (id: string): number => {
        const { solidusC, liquidusC } = SOLDERS.find((solder) => solder.id === solderOf.get(id))!;
        return policy === 'stay_solid' ? solidusC : liquidusC;
      };
      const played = heats.map(({ joints, solder }, i) =>
        warmedIn(
          {
            design,
            bench: last.bench,
            targets: joints,
            made: heats.slice(0, i).flatMap((heat) => heat.joints),
            solders: SOLDERS.filter(({ id }) => id === solder),
          },
          limitOf,
          normal,
        ),
      );
      if (played.includes(null)) continue;
      const all = played.flatMap((each) => each!.warmed);
      const firstOrderMs = played.reduce((sum, each) => sum + each!.ms, 0);
      plans.push({ name, policy, warmed: all, firstOrderMs, heats: heats.length });
    }
  }
  return plans;
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Share of the draws of a whole plan in which some joint passes its limit. */
function notClear({ warmed }: PlannedWarmth): number {
  const flowing = Array.from({ length: DRAWS }, (_, d) => warmed.map(({ drawnK }) => drawnK[d]!)).filter(
    (margins) => !margins.some((k) => Number.isNaN(k)),
  );
  return flowing.length === 0 ? NaN : flowing.filter((margins) => margins.some((k) => k < 0)).length / flowing.length;
}

export function showRobustMargins(): void {
  const plans = plannedWarmths().filter(({ warmed }) => warmed.length > 0);
  const all = plans.flatMap(({ warmed }) => warmed);
  console.log(
    `\nMargins of ${all.length} earlier joints in ${plans.length} plans of the demo pieces, beside the 5 % quantile of ${DRAWS} draws of each heat.`,
  );
  console.table(
    Object.entries(WAYS).map(([way, valueOf]) => {
      const off = all.map((each) => valueOf(each) - quantile(each.drawnK, 0.05)).filter((k) => !Number.isNaN(k));
      const clear = plans.filter(({ warmed }) => warmed.every((each) => valueOf(each) >= 0));
      const shares = clear.map(notClear).filter((share) => !Number.isNaN(share));
      return {
        way,
        'too bright by K, mean': round(mean(off)),
        'off by K, mean': round(mean(off.map(Math.abs))),
        'too bright for joints, %': round((100 * off.filter((k) => k > 0).length) / off.length),
        'plans called clear': clear.length,
        'of their draws not clear, %': shares.length > 0 ? round(100 * mean(shares)) : null,
        'worst such plan, %': shares.length > 0 ? round(100 * Math.max(...shares)) : null,
      };
    }),
  );
  const [ms, heats] = [plans.reduce((sum, plan) => sum + plan.firstOrderMs, 0), plans.reduce((sum, plan) => sum + plan.heats, 0)];
  console.log(`First order takes ${ASSUMPTIONS} more runs a heat, ${round(ms / heats)} ms here; U takes none.`);
}

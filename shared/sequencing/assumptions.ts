/** What a prediction rests on, for people to read beside it. */

import { DEFERRAL } from '../cautions/caution-table.ts';
import type { Bench, Heat } from '../design/plan.ts';
import type { Design } from '../design/design.ts';
import { LOOSE_CONTACT_W_PER_K } from '../thermal/joint-points.ts';
import { isOnOtherTorch, torchOf } from '../thermal/torch.ts';
import { LEAST_UNCERTAINTY_K, uncertaintyGrowth } from '../thermal/uncertainty.ts';
import { ANTI_FLOW_BUDGET_S, madeWith } from './design-problem.ts';
import type { Assumptions } from './plan-check-answer.ts';

const LEAVES_OUT: readonly string[] = [
  'The model is not validated against measured heats; a calibration with your own torch and hand narrows it.',
  'Every heat starts at 20 °C: no warmth is carried over from the heat before.',
  'No radiation between parts that face each other, and none inside a closed form.',
  'No latent heat of the solder, and no water boiling out of wet flux.',
  'No flame that strikes a part near in space but far along the metal.',
  `How well loose links touch is a guess: ${LOOSE_CONTACT_W_PER_K} W/K where the design does not say.`,
  'Anti-flow is taken to hold a joint for a set number of seconds above its solidus; that number is assumed.',
];

export function assumptionsOf(design: Design, bench: Bench, heats: readonly Heat[]): Assumptions {
  const calibration = bench.calibration ?? null;
  return {
    torch: torchOf(bench),
    support: bench.support,
    riseK: bench.riseK ?? 0,
    calibration,
    uncalibratedHeats: heats.flatMap((heat, i) => (calibration !== null && isOnOtherTorch(bench, heat) ? [i + 1] : [])),
    antiFlowBudgetS: bench.antiFlowBudgetS ?? ANTI_FLOW_BUDGET_S,
    uncertainty: `U = √(${LEAST_UNCERTAINTY_K}² + (${uncertaintyGrowth(calibration !== null)} · max(0, T_flow − T))²) K: ${LEAST_UNCERTAINTY_K} K beside the target, more the cooler a joint is than it`,
    assumedSolder: design.joints
      .filter(({ made }) => made?.solder === 'unknown')
      .map((joint) => ({ joint: joint.id, solidusC: madeWith(joint).solidusC, liquidusC: madeWith(joint).liquidusC })),
    leavesOut: [...LEAVES_OUT],
    deferral: DEFERRAL,
  };
}

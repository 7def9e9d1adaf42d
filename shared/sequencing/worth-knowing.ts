/** What is worth saying of a piece beside its plan, where it applies. */

import type { Solder } from '../design/solder.ts';
import { toFive } from '../thermal/to-five.ts';
import { designProblem, type DesignQuestion } from './design-problem.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import type { Proof } from './levels.ts';
import { withRules } from './loose-rules.ts';
import type { HeatCheck } from './plan-check-answer.ts';
import { USUAL_JOINTS_PER_HEAT } from './rule-faults.ts';
import { searchLevels } from './search-levels.ts';
import { changesInWords, levelsOf } from './trade-off.ts';
import { remembering, type Purse } from './trial.ts';

/** An earlier joint this near to the temperature of the heat is in a hot cluster. K */
const CLUSTER_K = 20;

/** A target is brought this far over its liquidus. K */
const OVER_LIQUIDUS_K = 10;

const isBare = ({ protectionCosts = [] }: HeatCheck): boolean => protectionCosts.length === 0;

/**
 * Which solders hold one another where joints lie close, said where a heat of the plan brings an earlier joint to about its own
 * temperature without protection.
 */
export function clusterFact({ solders, bench }: DesignQuestion, checks: readonly HeatCheck[]): string[] {
  const hot = checks
    .filter(isBare)
    .flatMap(({ flowC, earlierJoints }) =>
      earlierJoints.filter(({ peakC }) => flowC !== null && flowC - peakC < CLUSTER_K).map(({ joint }) => joint),
    );
  if (hot.length === 0) return [];
  const overK = (first: Solder, next: Solder): number => first.solidusC + (bench.riseK ?? 0) - (next.liquidusC + OVER_LIQUIDUS_K);
  const pairs = solders
    .flatMap((first) => solders.map((next) => ({ first, next, k: overK(first, next) })))
    .filter(({ k }) => k >= 0)
    .toSorted((a, b) => b.k - a.k)
    .map(({ first, next, k }) => `${first.id} then ${next.id} (${toFive(k) === 0 ? 'just' : `by about ${toFive(k)} °C`})`);
  const close = `So close to what is soldered that they come to about its temperature: ${[...new Set(hot)].join(', ')}`;
  return [
    pairs.length > 0
      ? `${close}. There, without protection and before the uncertainty, an earlier joint stays solid only with ${pairs.join(', ')}`
      : `${close}. There, without protection, none of these solders keeps an earlier joint solid under another`,
  ];
}

/** What one joint more in a heat would spare, which is more than anything else does; nothing where it spares nothing. */
export function* leverFact(
  question: DesignQuestion,
  proof: readonly Proof[],
  { preferHigherGrades, purse }: { preferHigherGrades: boolean; purse: Purse },
): Generator<unknown, string[]> {
  const { maxJointsPerHeat: most = USUAL_JOINTS_PER_HEAT } = question.given.rules ?? {};
  const open = question.design.joints.filter(({ made }) => !made).length;
  if (most >= open) return [];
  const more = designProblem(withRules(question, { ...question.given.rules, maxJointsPerHeat: most + 1 }));
  const own: Purse = { workUnits: purse.workUnits, isStopped: purse.isStopped };
  const limits = { workUnits: own.workUnits, stopAt: 'heats' as const, preferHigherGrades };
  const found = yield* searchLevels(more, remembering(heatModelOracle(question), own), limits);
  purse.workUnits = Math.min(purse.workUnits, own.workUnits) - found.workUnits;
  if (!found.heats) return [];
  const [from, to] = [levelsOf(proof), levelsOf(found.proof)];
  const { gains } = changesInWords({ ...from, grades: 0, preference: 0 }, { ...to, grades: 0, preference: 0 });
  if (gains.length === 0 || to.margin < from.margin || to.protections > from.protections) return [];
  return [`Nothing spares more than more joints in one heat: with ${most + 1} instead of ${most}, ${gains.join(', ')}`];
}

/** What is told beside a plan, or in place of one: each within work units of its own. */

import type { Heat } from '../design/plan.ts';
import { designProblem, type DesignQuestion } from './design-problem.ts';
import { explainInfeasible } from './explain-infeasible.ts';
import { handForm } from './hand-form.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import { leastBadHeats } from './least-bad-plan.ts';
import { otherPlans } from './other-plans.ts';
import { heatsOf, planOf } from './plan-of-heats.ts';
import type { Alternative, Conflict, Policy, Relaxation } from './plan-search-request.ts';
import type { PlanToCheck } from './plan-to-check.ts';
import { relaxations } from './relaxations.ts';
import type { LevelsFound } from './search-levels.ts';
import { softerTradeOff } from './trade-off.ts';
import { isSpent, type Purse } from './trial.ts';
import { leverFact } from './worth-knowing.ts';

export interface Tried {
  policy: Policy;
  question: DesignQuestion;
  found: LevelsFound;
}

export interface Telling {
  /** What the whole search may spend, and what it has spent. */
  workUnits: number;
  spent: number;
  isStopped: () => boolean;
  /** Whether the time has been over for so long that whatever is at hand must do. */
  isLongOver?: () => boolean;
  preferHigherGrades: boolean;
}

/** Share of the work units kept for telling why there is no plan, and for what would let there be one. */
const EXPLAIN_FRACTION = 0.25;
/** The same for plans nearly as good. */
const OTHERS_FRACTION = 0.15;
/** Each may spend so much, or as much as the search itself did. */
const LEAST_UNITS = 60_000;
/** Ways out are many, most with heats of their own. */
const LEAST_UNITS_FOR_WAYS = 120_000;

function purseOf({ workUnits, spent, isStopped }: Telling, fraction: number, least = LEAST_UNITS): Purse {
  return { workUnits: Math.min(fraction * workUnits, Math.max(least, spent)), isStopped };
}

/**
 * The best plan under the other policy, and plans nearly as good under the same, none shown that is the same to the hand; and what one
 * joint more in a heat would spare.
 */
export function* toldBeside(
  input: PlanToCheck,
  kept: readonly Heat[],
  { chosen, tried }: { chosen: Tried; tried: readonly Tried[] },
  telling: Telling,
): Generator<unknown, { alternatives: Alternative[]; lever: string[] }> {
  const { question, policy } = chosen;
  const { heats, proof } = chosen.found;
  if (!heats || heats.length === 0) return { alternatives: [], lever: [] };
  const purse = purseOf(telling, OTHERS_FRACTION);
  const { preferHigherGrades } = telling;
  const shown = new Set([handForm(question.design, heatsOf(designProblem(question), heats))]);
  const alternatives: Alternative[] = [];
  for (const other of tried) {
    if (other === chosen || !other.found.heats) continue;
    const softer = heatsOf(designProblem(other.question), other.found.heats);
    const form = handForm(question.design, softer);
    if (shown.has(form)) continue;
    shown.add(form);
    const plan = planOf(input, [...kept, ...softer]);
    alternatives.push({ policy: other.policy, plan, tradeOff: softerTradeOff(proof, other.found.proof) });
  }
  for (const other of yield* otherPlans({ question, heats, proof, preferHigherGrades }, shown, purse))
    alternatives.push({ policy, plan: planOf(input, [...kept, ...other.heats]), tradeOff: other.tradeOff });
  return { alternatives, lever: yield* leverFact(question, proof, { preferHigherGrades, purse }) };
}

export interface ToldInstead {
  /** The plan that does least harm. */
  heats: Heat[];
  conflict: Conflict | null;
  relaxations: Relaxation[];
  /** Whether some ways out were left untried. */
  isCutShort: boolean;
}

/** Of a piece without a plan: the least bad one, why there is none, and what would let there be one. */
export function* toldInstead({ question, found }: Tried, telling: Telling): Generator<unknown, ToldInstead> {
  const oracle = heatModelOracle(question);
  const isCutOff = found.stoppedBy === 'time' || found.stoppedBy === 'host' || telling.isStopped();
  const why = purseOf(telling, EXPLAIN_FRACTION);
  const heats = yield* leastBadHeats(question, oracle, {
    workUnits: isCutOff ? 0 : why.workUnits,
    isLongOver: telling.isLongOver,
  });
  if (isCutOff) return { heats, conflict: null, relaxations: [], isCutShort: true };
  const conflict = found.outcome === 'infeasible' ? yield* explainInfeasible(question, why) : null;
  const ways = purseOf(telling, EXPLAIN_FRACTION, LEAST_UNITS_FOR_WAYS);
  return { heats, conflict, relaxations: yield* relaxations(question, conflict, ways), isCutShort: isSpent(ways) };
}

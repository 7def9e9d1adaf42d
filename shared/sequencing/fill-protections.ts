/** A plan typed without protections, with the fewest that each of its heats needs. */

import type { Heat } from '../design/plan.ts';
import { benchOfHeat } from '../thermal/torch.ts';
import { designProblem, type DesignQuestion } from './design-problem.ts';
import { checkHeat, problemsOf } from './heat-check.ts';
import { heatModelOracle, heatWith } from './heat-model-oracle.ts';
import { jointsBefore } from './heat-question.ts';
import type { ProtectionOption } from './plan-search-request.ts';
import { isAnneal, type PlanToCheck } from './plan-to-check.ts';
import { restricted } from './restricted-problem.ts';
import { searchLevels } from './search-levels.ts';
import { withMade } from './with-made.ts';

/** Work units for one heat. */
const UNITS_EACH = 60_000;

/**
 * Each heat that does harm as it stands, and has no flame or protection of its own, gets the fewest protections that keep every earlier
 * joint from running, and a joint with a load from softening, beyond the uncertainty; where none do, it stays as it is. Exact heat by
 * heat, as what earlier joints were made with is given.
 *
 * @param heats in the ids of the expanded design, without a structural fault
 */
export function* fillProtections(
  input: PlanToCheck,
  heats: readonly Heat[],
  protections: readonly ProtectionOption[],
  isStopped: () => boolean,
): Generator<void, Heat[]> {
  const filled: Heat[] = [];
  for (const [i, heat] of heats.entries()) {
    const isOpen = !isAnneal(heat) && heat.flame === undefined && (heat.protections ?? []).length === 0;
    const mayFill = isOpen && !isStopped() && problemsOf(checkHeat(input, heat, i + 1, jointsBefore(input, heats, i))).length > 0;
    filled.push(mayFill ? yield* filledHeat(input, heats, i, { protections, isStopped }) : heat);
    yield;
  }
  return filled;
}

function* filledHeat(
  input: PlanToCheck,
  heats: readonly Heat[],
  i: number,
  { protections, isStopped }: { protections: readonly ProtectionOption[]; isStopped: () => boolean },
): Generator<void, Heat> {
  const heat = heats[i]!;
  const question: DesignQuestion = {
    ...input,
    design: { ...withMade(input, heats.slice(0, i)), rules: { maxJointsPerHeat: heat.joints.length } },
    given: { ...input.given, rules: {} },
    bench: benchOfHeat(input.bench, heat),
    policy: 'do_not_run',
    targetMarginK: 0,
    protections,
  };
  const whole = designProblem(question);
  const targets = [...whole.joints.keys()].filter((j) => heat.joints.includes(whole.joints[j]!.id));
  const own = restricted(whole, targets);
  const bit = 1 << own.grades.findIndex(({ id }) => id === heat.solder);
  const problem = {
    ...own,
    joints: own.joints.map((joint) => ({ ...joint, allowed: joint.allowed & bit })),
    grades: own.grades.map((grade) => ({ ...grade, availableG: Infinity })),
    together: [[...own.joints.keys()]],
  };
  if (problem.joints.some(({ allowed }) => allowed === 0)) return heat;
  // The heats are those of the design as it was given, so that what is known of them stays known.
  const oracle = heatModelOracle({ ...question, design: input.design });
  const stopped = () => (isStopped() ? ('host' as const) : null);
  const limits = { workUnits: UNITS_EACH, stopAt: 'protections' as const, preferHigherGrades: false, stopped };
  const steps = searchLevels(problem, oracle, limits);
  let step = steps.next();
  for (; !step.done; step = steps.next()) yield;
  const [found, ...more] = step.value.heats ?? [];
  return found && more.length === 0 ? { ...heat, ...heatWith(found.technique) } : heat;
}

import type { Design } from '../design/design.ts';
import { expandDesign, expandHeat } from '../design/expand-design.ts';
import type { Bench, Heat, Plan } from '../design/plan.ts';
import type { Solder } from '../design/solder.ts';
import { runToEnd } from '../run-to-end.ts';
import { assumptionsOf } from './assumptions.ts';
import { cautionsIn, checkHeats, type CheckedHeats } from './heat-check.ts';
import { heatModel, type HeatPhysics, type SolderNeedG } from './heat-physics.ts';
import { designNames, knownRules, namingFaults, ruleNames } from './naming-faults.ts';
import type { PlanCheck, PlanCheckOutcome } from './plan-check-answer.ts';
import { planFaults } from './plan-faults.ts';
import type { PlanToCheck } from './plan-to-check.ts';
import { withProtectionCosts } from './protection-costs.ts';
import { suggestFixes, type SuggestedFixes } from './suggest-fixes.ts';

export interface PlanCheckRequest {
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
  plan: Plan;
  /** Whether every heat answers how its temperatures went. */
  histories?: boolean;
}

export interface PlanServices {
  /** Kept by a host between requests to share what has been simulated; a fresh heat model when absent. */
  physics?: HeatPhysics;
  solderNeedG?: SolderNeedG;
  /** Asked between steps; true ends the trying of fixes, or a search, with what there is. */
  isStopped?: () => boolean;
}

/** A request with its design expanded; null when a name in the design itself is missing or used twice. */
export function planToCheck(
  { design, solders, bench, plan, histories }: PlanCheckRequest,
  { physics = heatModel(), solderNeedG }: PlanServices,
): PlanToCheck | null {
  if (designNames({ given: design, solders }).length > 0) return null;
  const expanded = expandDesign({ ...design, rules: knownRules(design) });
  return { given: { ...design, rules: knownRules(design) }, ...expanded, solders, bench, plan, histories, physics, solderNeedG };
}

/** The same as checkPlanSteps, run to its end. */
export function checkPlan(request: PlanCheckRequest, services: PlanServices = {}): PlanCheckOutcome {
  return runToEnd(checkPlanSteps(request, services));
}

/**
 * What a plan would do: every fault of its structure at once, or, where it has none, each heat in order through the heat model, with
 * both margins of every earlier joint, a verdict, what every protection costs in time, for each problem the best of some thirty small
 * edits, and for a heat that does not flow what would help. A generator: it yields after every heat, for a host to do other work in
 * between.
 *
 * @throws {EngineInputError} for a size or number outside what the heat model covers
 */
export function* checkPlanSteps(request: PlanCheckRequest, services: PlanServices = {}): Generator<void, PlanCheckOutcome> {
  const input = planToCheck(request, services);
  const named = { given: request.design, solders: request.solders, plan: request.plan };
  const faults = input ? [...ruleNames(named), ...planFaults(input)] : namingFaults(named);
  if (!input || faults.length > 0) return { outcome: 'faults', faults };
  const heats = expandedHeats(input);
  const checked = yield* checkHeats(input, heats);
  const isStopped = services.isStopped;
  const bare = { ...input, histories: false };
  const costed = yield* withProtectionCosts(bare, checked.heats, { isStopped });
  const fixes = yield* suggestFixes(bare, heats, checked.problems, { isStopped });
  return { outcome: 'checked', check: concludeCheck(input, { ...checked, heats: costed }, fixes) };
}

export function expandedHeats({ design, jointsOf, partsOf, plan }: PlanToCheck): Heat[] {
  return plan.heats.map((heat) => expandHeat(heat, { design, jointsOf, partsOf }));
}

export function concludeCheck(
  { design, bench, plan }: PlanToCheck,
  { heats, problems }: CheckedHeats,
  { fixes, helps, isCutShort }: SuggestedFixes,
): PlanCheck {
  return {
    verdict: verdictOf({ heats, problems }),
    heats,
    problems: problems.map((problem, i) => ({ ...problem, bestFix: fixes[i] ?? null, ...helps[i]! })),
    fixesCutShort: isCutShort,
    assumptions: assumptionsOf(design, bench, plan.heats),
  };
}

export function verdictOf({ heats, problems }: CheckedHeats): PlanCheck['verdict'] {
  if (problems.length > 0) return 'problem';
  return heats.some((heat) => cautionsIn(heat).length > 0) ? 'caution' : 'clear_to_heat';
}

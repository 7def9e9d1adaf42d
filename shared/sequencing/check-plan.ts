import type { Design } from '../design/design.ts';
import { expandDesign, expandHeat } from '../design/expand-design.ts';
import type { Bench, Heat, Plan } from '../design/plan.ts';
import type { Solder } from '../design/solder.ts';
import { runToEnd } from '../run-to-end.ts';
import { assumptionsOf } from './assumptions.ts';
import { fillProtections } from './fill-protections.ts';
import { cautionsIn, checkHeats, type CheckedHeats } from './heat-check.ts';
import { heatModel, type HeatPhysics, type SolderNeedG } from './heat-physics.ts';
import { mendStructure } from './mend-structure.ts';
import { designNames, knownRules, namingFaults, ruleNames } from './naming-faults.ts';
import type { MendedFault, PlanCheck, PlanCheckOutcome } from './plan-check-answer.ts';
import { planFaults } from './plan-faults.ts';
import { planOf } from './plan-of-heats.ts';
import type { ProtectionOption } from './plan-search-request.ts';
import type { Fault, PlanToCheck } from './plan-to-check.ts';
import { withProtectionCosts } from './protection-costs.ts';
import { suggestFixes, type FixLimits, type SuggestedFixes } from './suggest-fixes.ts';

export interface PlanCheckRequest {
  design: Design;
  solders: readonly Solder[];
  bench: Bench;
  plan: Plan;
  /** Whether every heat answers how its temperatures went. */
  histories?: boolean;
  /** Protections that may be added before it is judged: each heat that needs some gets the fewest. */
  fill?: readonly ProtectionOption[];
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
 * What a plan would do: every fault of its structure at once, each with the edit that puts it right, or, where it has none, each heat in order through the heat model, with
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
  if (!input) return { outcome: 'faults', faults };
  if (faults.length > 0) return { outcome: 'faults', faults: yield* withMends(input, faults, services.isStopped) };
  const isStopped = services.isStopped;
  const typed = expandedHeats(input);
  if (request.fill) {
    const filled = yield* fillProtections({ ...input, histories: false }, typed, request.fill, isStopped ?? (() => false));
    const plan = planOf(input, filled);
    const { fill: _fill, ...rest } = request;
    const outcome = yield* checkPlanSteps({ ...rest, plan }, { ...services, physics: input.physics });
    return outcome.outcome === 'faults'
      ? outcome
      : { ...outcome, check: { ...outcome.check, filled: filledOf(typed, filled, plan) } };
  }
  return { outcome: 'checked', check: yield* wholeCheck(input, typed, { isStopped }) };
}

/**
 * The check of a plan without a structural fault: its heats, what every protection costs, and for each problem what would mend it.
 *
 * @param heats in the ids of the expanded design
 */
export function* wholeCheck(input: PlanToCheck, heats: readonly Heat[], limits: FixLimits): Generator<void, PlanCheck> {
  const checked = yield* checkHeats(input, heats);
  const bare = { ...input, histories: false };
  const costed = yield* withProtectionCosts(bare, checked.heats, limits);
  const fixes = yield* suggestFixes(bare, heats, checked.problems, limits);
  return concludeCheck(input, { ...checked, heats: costed }, fixes);
}

const protectionCount = ({ flame, protections = [] }: Heat): number =>
  protections.length + (flame?.awayFrom === undefined ? 0 : 1);

function filledOf(typed: readonly Heat[], filled: readonly Heat[], plan: Plan): NonNullable<PlanCheck['filled']> {
  const added = filled.reduce((sum, heat, i) => sum + protectionCount(heat) - protectionCount(typed[i]!), 0);
  const heats = filled.flatMap((heat, i) => (heat === typed[i] ? [] : [i + 1]));
  const into = heats.length === 1 ? `heat ${heats[0]}` : `heats ${heats.join(', ')}`;
  const says =
    added === 0
      ? 'No protection was added'
      : `${added === 1 ? '1 protection' : `${added} protections`} added to ${into}, the fewest that keep earlier joints from running there`;
  return { plan, added, says };
}

/** Each fault with what puts it right; where a name stands for nothing, what the rest would come to is guesswork. */
function* withMends(
  input: PlanToCheck,
  faults: readonly Fault[],
  isStopped: PlanServices['isStopped'],
): Generator<void, MendedFault[]> {
  if (namingFaults({ given: input.given, solders: input.solders, plan: input.plan }).length > 0) return [...faults];
  const mends = yield* mendStructure({ ...input, histories: false }, faults, isStopped);
  return faults.map((fault, i) => ({ ...fault, ...(mends[i] && { bestFix: mends[i] }) }));
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

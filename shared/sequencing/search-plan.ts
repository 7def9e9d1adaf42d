import type { Design } from '../design/design.ts';
import { expandHeat } from '../design/expand-design.ts';
import type { Heat } from '../design/plan.ts';
import { runToEnd } from '../run-to-end.ts';
import { concludeCheck, planToCheck, type PlanServices } from './check-plan.ts';
import { designProblem, type DesignQuestion } from './design-problem.ts';
import { explainInfeasible } from './explain-infeasible.ts';
import { checkHeats } from './heat-check.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import { leastBadHeats } from './least-bad-plan.ts';
import { designNames, ruleNames } from './naming-faults.ts';
import type { PlanCheck } from './plan-check-answer.ts';
import { planFaults } from './plan-faults.ts';
import { heatsOf, planOf } from './plan-of-heats.ts';
import type { Alternative, PlanSearchAnswer, PlanSearchOptions, PlanSearchRequest, Policy } from './plan-search-request.ts';
import type { Fault, PlanToCheck } from './plan-to-check.ts';
import { withProtectionCosts } from './protection-costs.ts';
import { relaxations } from './relaxations.ts';
import { searchLevels, type LevelsFound, type SearchStep, type StoppedBy } from './search-levels.ts';
import { searchedSentences, tradeOff } from './search-sentences.ts';
import { suggestFixes } from './suggest-fixes.ts';
import { whyLines } from './why.ts';

export interface SearchServices extends PlanServices {
  /** Milliseconds since the search began, from the host's clock; for the safety net and the statistics alone. */
  elapsedMs?: () => number;
}

export type PlanSearchOutcome = { outcome: 'faults'; faults: Fault[] } | PlanSearchAnswer;

/** What a search may spend where it is not said. */
export const USUAL_WORK_UNITS = 2_000_000;
const USUAL_TARGET_K = 10;

/** Share of the work units kept for telling why there is no plan. */
const EXPLAIN_FRACTION = 0.25;

/** Edits tried around the plan that is answered: the search has tried more than they would. */
const MOST_EDITS_CHECKED = 60;

/** How far a search is: what it has spent on both policies, and of the one at hand the best plan so far, level by level. */
export interface PlanSearchStep extends SearchStep {
  policy?: Policy;
}

interface Tried {
  policy: Policy;
  question: DesignQuestion;
  found: LevelsFound;
}

/** The same as searchPlanSteps, run to its end. */
export function searchPlan(request: PlanSearchRequest, services: SearchServices = {}): PlanSearchOutcome {
  return runToEnd(searchPlanSteps(request, services));
}

/**
 * The best plan for a piece, level by level: margin on a grid of 5 K up to the target, protections, heats, distinct grades, highest
 * grades, hands-on time; first with every earlier joint solid, and where no plan does that, with none running. Exact while its work
 * units last; the proof says of each level whether it is. A generator: it yields every 128 options, for a host to stop or to do other
 * work in between. Same request, same answer, unless the time net or the host ends it early.
 *
 * @throws {EngineInputError} for a size or number outside what the heat model covers
 */
export function* searchPlanSteps(
  request: PlanSearchRequest,
  services: SearchServices = {},
): Generator<PlanSearchStep, PlanSearchOutcome> {
  const { options = {} } = request;
  const { input, faults } = inputOf(request, services);
  if (!input || faults.length > 0) return { outcome: 'faults', faults };
  const kept = input.plan.heats.map((heat) => expandHeat(heat, input));
  const design = withMade(input, kept);
  const tried = yield* tryPolicies({ ...input, design }, options, services);
  return yield* answer(input, options, services, kept, tried);
}

/** What is wrong with a request before anything is searched for: every fault of the design, its rules and the heats that are kept. */
export function searchFaults(request: PlanSearchRequest): Fault[] {
  return inputOf(request, {}).faults;
}

function inputOf(request: PlanSearchRequest, services: PlanServices): { input: PlanToCheck | null; faults: Fault[] } {
  const { options = {}, ...rest } = request;
  const input = planToCheck({ ...rest, plan: { heats: options.keep ?? [] } }, services);
  const faults = input ? [...ruleNames(withPlan(request)), ...keptFaults(input)] : designNames(withPlan(request));
  return { input, faults };
}

const withPlan = ({ design, solders, options }: PlanSearchRequest) => ({
  given: design,
  solders,
  plan: { heats: options?.keep ?? [] },
});

/** Faults of the heats that are done; that other joints are in no heat yet is what the search is for. */
function keptFaults(input: PlanToCheck): Fault[] {
  return planFaults(input)
    .filter(({ pointer }) => pointer.startsWith('/plan/heats/'))
    .map(({ pointer, detail }) => ({ pointer: pointer.replace('/plan/heats', '/options/keep'), detail }));
}

function withMade({ design, solders }: PlanToCheck, kept: readonly Heat[]): Design {
  if (kept.length === 0) return design;
  const solderOf = new Map(
    kept.flatMap(({ joints, solder, purpose }) => (purpose === 'anneal' ? [] : joints.map((id) => [id, solder] as const))),
  );
  const joints = design.joints.map((joint) => {
    const solder = solders.find(({ id }) => id === solderOf.get(joint.id));
    return solder ? { ...joint, made: { solder } } : joint;
  });
  return { ...design, joints };
}

function* tryPolicies(
  input: Omit<PlanToCheck, 'plan'>,
  options: PlanSearchOptions,
  services: SearchServices,
): Generator<PlanSearchStep, Tried[]> {
  const { policy = 'both', targetMarginK = USUAL_TARGET_K, protections = [], workUnits = USUAL_WORK_UNITS } = options;
  const policies: readonly Policy[] = policy === 'both' ? ['stay_solid', 'do_not_run'] : [policy];
  const stopped = () => stoppedBy(options, services);
  const tried: Tried[] = [];
  let left = workUnits;
  for (const [i, each] of policies.entries()) {
    const question = { ...input, policy: each, targetMarginK, protections };
    const limits = {
      workUnits: left / (policies.length - i),
      stopAt: options.stopAt ?? 'time',
      preferHigherGrades: options.preferHigherGrades ?? false,
      stopped,
    };
    const before = { workUnits: workUnits - left, thermalRuns: tried.reduce((sum, { found }) => sum + found.thermalRuns, 0) };
    const found = yield* onTopOf(before, each, searchLevels(designProblem(question), heatModelOracle(question), limits));
    left -= found.workUnits;
    tried.push({ policy: each, question, found });
  }
  return tried;
}

function* onTopOf<Answer>(
  before: SearchStep,
  policy: Policy,
  steps: Generator<SearchStep, Answer>,
): Generator<PlanSearchStep, Answer> {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    yield {
      ...value,
      policy,
      workUnits: before.workUnits + value.workUnits,
      thermalRuns: before.thermalRuns + value.thermalRuns,
    };
  }
}

function* answer(
  input: PlanToCheck,
  options: PlanSearchOptions,
  services: SearchServices,
  kept: readonly Heat[],
  tried: readonly Tried[],
): Generator<SearchStep, PlanSearchAnswer> {
  const chosen = tried.find(({ found }) => found.heats) ?? tried.at(-1)!;
  const { policy, question, found } = chosen;
  const stats = {
    thermalRuns: tried.reduce((sum, each) => sum + each.found.thermalRuns, 0),
    workUnits: tried.reduce((sum, each) => sum + each.found.workUnits, 0),
    stoppedBy: tried.find((each) => each.found.stoppedBy)?.found.stoppedBy ?? null,
  };
  const purse = { workUnits: (options.workUnits ?? USUAL_WORK_UNITS) * EXPLAIN_FRACTION };
  const isStopped = stats.stoppedBy === 'time' || stats.stoppedBy === 'host';
  const step = (): SearchStep => ({ workUnits: stats.workUnits, thermalRuns: stats.thermalRuns });
  let conflict: PlanSearchAnswer['conflict'] = null;
  let ways: PlanSearchAnswer['relaxations'] = [];
  let heats: Heat[];
  if (found.heats) {
    heats = heatsOf(designProblem(question), found.heats);
  } else {
    heats = yield* stepping(leastBadHeats(question, heatModelOracle(question), isStopped ? 0 : purse.workUnits), step);
    if (!isStopped) {
      conflict = found.outcome === 'infeasible' ? yield* stepping(explainInfeasible(question, purse), step) : null;
      ways = yield* stepping(relaxations(question, purse), step);
    }
  }
  const plan = planOf(input, [...kept, ...heats]);
  const all = plan.heats.map((heat) => expandHeat(heat, input));
  const isOver = () => stoppedBy(options, services) !== null;
  const check = yield* stepping(checkAnswer({ ...input, plan }, all, isOver), step);
  return {
    outcome: outcomeOf(tried, chosen),
    policy,
    plan,
    check,
    proof: found.proof,
    why: whyLines(input, all, check.heats),
    alternatives: alternativesOf(input, kept, chosen, tried),
    conflict,
    relaxations: ways,
    searched: searchedSentences(question, tried),
    stats: { ...stats, elapsedMs: services.elapsedMs?.() ?? null },
  };
}

/** A plan under the second policy is only proven best where the first is proven to allow none. */
function outcomeOf(tried: readonly Tried[], chosen: Tried): PlanSearchAnswer['outcome'] {
  const earlier = tried.slice(0, tried.indexOf(chosen));
  const open = earlier.some(({ found }) => found.outcome === 'unknown');
  const { outcome } = chosen.found;
  if (!open) return outcome;
  return outcome === 'optimal' || outcome === 'feasible' ? 'feasible' : 'unknown';
}

function* stepping<T>(work: Generator<unknown, T>, step: () => SearchStep): Generator<SearchStep, T> {
  let next = work.next();
  while (!next.done) {
    yield step();
    next = work.next();
  }
  return next.value;
}

function* checkAnswer(input: PlanToCheck, heats: readonly Heat[], isStopped: () => boolean): Generator<void, PlanCheck> {
  const checked = yield* checkHeats(input, heats);
  const costed = yield* withProtectionCosts(input, checked.heats, { isStopped });
  const fixes = yield* suggestFixes(input, heats, checked.problems, { mostChecked: MOST_EDITS_CHECKED, isStopped });
  return concludeCheck(input, { ...checked, heats: costed }, fixes);
}

/** Why a search ends before its time; null: it goes on. */
function stoppedBy(options: PlanSearchOptions, { isStopped, elapsedMs }: SearchServices): StoppedBy | null {
  if (isStopped?.()) return 'host';
  return elapsedMs && elapsedMs() > (options.timeMs ?? Infinity) ? 'time' : null;
}

function alternativesOf(input: PlanToCheck, kept: readonly Heat[], chosen: Tried, tried: readonly Tried[]): Alternative[] {
  return tried.flatMap((other): Alternative[] => {
    if (other === chosen || !other.found.heats) return [];
    const heats = heatsOf(designProblem(other.question), other.found.heats);
    const plan = planOf(input, [...kept, ...heats]);
    const same = JSON.stringify(heats) === JSON.stringify(heatsOf(designProblem(chosen.question), chosen.found.heats!));
    return same ? [] : [{ policy: other.policy, plan, tradeOff: tradeOff(chosen.found.proof, other.found.proof) }];
  });
}

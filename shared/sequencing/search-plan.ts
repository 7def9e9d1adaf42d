import { expandHeat } from '../design/expand-design.ts';
import type { Heat } from '../design/plan.ts';
import { runToEnd } from '../run-to-end.ts';
import { planToCheck, wholeCheck, type PlanServices } from './check-plan.ts';
import { designProblem } from './design-problem.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import { orQuickPlan } from './least-bad-plan.ts';
import { designNames, ruleNames } from './naming-faults.ts';
import { planFaults } from './plan-faults.ts';
import { heatsOf, planOf } from './plan-of-heats.ts';
import type { PlanSearchAnswer, PlanSearchOptions, PlanSearchRequest, Policy } from './plan-search-request.ts';
import type { Fault, PlanToCheck } from './plan-to-check.ts';
import { searchLevels, type SearchStep, type StoppedBy } from './search-levels.ts';
import { searchedSentences } from './search-sentences.ts';
import { toldBeside, toldInstead, type Tried } from './told-beside.ts';
import { whyLines } from './why.ts';
import { withMade } from './with-made.ts';
import { clusterFact } from './worth-knowing.ts';

export interface SearchServices extends PlanServices {
  /** Milliseconds since the search began, from the host's clock; for the safety net and the statistics alone. */
  elapsedMs?: () => number;
}

export type PlanSearchOutcome = { outcome: 'faults'; faults: Fault[] } | PlanSearchAnswer;

/** What a search may spend where it is not said. */
export const USUAL_WORK_UNITS = 2_000_000;
const USUAL_TARGET_K = 10;

/** Where there is no plan yet, so many times the time that a search was given is taken, and a little. */
const OVERTIME = 1.3;
const OVERTIME_MS = 1000;
/** Where there is none: so much after the time no better one is looked for among those that do harm. */
const LEAST_BAD_MS = 5000;

/** Edits tried around the plan that is answered: the search has tried more than they would. */
const MOST_EDITS_CHECKED = 60;

/** How far a search is: what it has spent on both policies, and of the one at hand the best plan so far, level by level. */
export interface PlanSearchStep extends SearchStep {
  policy?: Policy;
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

function* tryPolicies(
  input: Omit<PlanToCheck, 'plan'>,
  options: PlanSearchOptions,
  services: SearchServices,
): Generator<PlanSearchStep, Tried[]> {
  const { policy = 'both', targetMarginK = USUAL_TARGET_K, protections = [], workUnits = USUAL_WORK_UNITS } = options;
  const policies: readonly Policy[] = policy === 'both' ? ['stay_solid', 'do_not_run'] : [policy];
  const stopped = () => stoppedBy(options, services);
  const isOvertime = () => (services.elapsedMs?.() ?? 0) > OVERTIME * (options.timeMs ?? Infinity) + OVERTIME_MS;
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
    const oracle = heatModelOracle(question);
    const searched = yield* onTopOf(before, each, searchLevels(designProblem(question), oracle, limits));
    left -= searched.workUnits;
    const isLast = i === policies.length - 1 && tried.every((other) => !other.found.heats);
    // A few steps that are not counted: what is told of it stands still.
    const spent = (): PlanSearchStep => ({
      policy: each,
      workUnits: before.workUnits + searched.workUnits,
      thermalRuns: before.thermalRuns + searched.thermalRuns,
    });
    const found = isLast ? yield* stepping(orQuickPlan(question, oracle, { found: searched, isOvertime }), spent) : searched;
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
  const isOver = () => stoppedBy(options, services) !== null;
  const { workUnits = USUAL_WORK_UNITS, preferHigherGrades = false } = options;
  const isLongOver = () => (services.elapsedMs?.() ?? 0) > (options.timeMs ?? Infinity) + LEAST_BAD_MS;
  const telling = { workUnits, spent: stats.workUnits, isStopped: isOver, isLongOver, preferHigherGrades };
  const step = (): SearchStep => ({ workUnits: stats.workUnits, thermalRuns: stats.thermalRuns });
  const instead = found.heats ? null : yield* stepping(toldInstead(chosen, telling), step);
  const heats = instead?.heats ?? heatsOf(designProblem(question), found.heats!);
  const plan = planOf(input, [...kept, ...heats]);
  const all = plan.heats.map((heat) => expandHeat(heat, input));
  const check = yield* stepping(
    wholeCheck({ ...input, plan }, all, { mostChecked: MOST_EDITS_CHECKED, isStopped: isOver }),
    step,
  );
  const beside = yield* stepping(toldBeside(input, kept, { chosen, tried }, telling), step);
  return {
    outcome: outcomeOf(tried, chosen),
    policy,
    plan,
    check,
    proof: found.proof,
    why: yield* stepping(whyLines(input, all, check.heats, isOver), step),
    alternatives: beside.alternatives,
    worthKnowing: [...clusterFact(question, check.heats), ...beside.lever],
    conflict: instead?.conflict ?? null,
    relaxations: instead?.relaxations ?? [],
    searched: searchedSentences(question, tried, instead?.isCutShort ?? false),
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

function* stepping<T, Step>(work: Generator<unknown, T>, step: () => Step): Generator<Step, T> {
  let next = work.next();
  while (!next.done) {
    yield step();
    next = work.next();
  }
  return next.value;
}

/** Why a search ends before its time; null: it goes on. */
function stoppedBy(options: PlanSearchOptions, { isStopped, elapsedMs }: SearchServices): StoppedBy | null {
  if (isStopped?.()) return 'host';
  return elapsedMs && elapsedMs() > (options.timeMs ?? Infinity) ? 'time' : null;
}

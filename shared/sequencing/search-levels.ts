/** The objective, level by level: each is proven before the next is looked at, and never given up for it. */

import { fewestChanges } from './fewest-changes.ts';
import type { HeatOracle } from './heat-oracle.ts';
import type { Weights } from './last-entries.ts';
import { COUNTS, EVERYTHING, LevelSearch, RANKS } from './level-search.ts';
import { LEVELS, type LevelName, type Proof } from './levels.ts';
import { levelValues } from './level-values.ts';
import { protectionsOf, type PlannedHeat } from './planned-heats.ts';
import { AllowanceSpent, workUnits } from './section-search.ts';
import type { Found } from './stock-search.ts';
import { bitsOf, countBits, type SequenceProblem } from './sequence-problem.ts';

export type StoppedBy = 'work_units' | 'time' | 'host';

export interface SearchLimits {
  workUnits: number;
  stopAt: LevelName;
  preferHigherGrades: boolean;
  /** Asked at every step; a reason ends the search. */
  stopped?: () => StoppedBy | null;
}

export interface SearchStep {
  workUnits: number;
  thermalRuns: number;
  /** The best plan so far, level by level; absent while there is none. */
  proof?: Proof[];
}

export interface LevelsFound {
  outcome: 'optimal' | 'feasible' | 'infeasible' | 'unknown';
  heats: PlannedHeat[] | null;
  proof: Proof[];
  stoppedBy: StoppedBy | null;
  workUnits: number;
  thermalRuns: number;
}

/** Up to this many open joints the levels are proven one by one from the start; above it a plan is sought first. */
const PROVEN_AT_ONCE = 6;

/** Work units that one dive for a first plan may take. */
const DIVE_UNITS = 400_000;

type Note = (proven: LevelName | null, levelK: number, heats: readonly PlannedHeat[]) => void;

const orderOf = ({ preferHigherGrades }: SearchLimits): readonly LevelName[] =>
  preferHigherGrades ? ['margin', 'protections', 'heats', 'preference', 'grades', 'time'] : LEVELS;

/** A plan at the highest level where a dive finds one. */
function* firstPlan(search: LevelSearch, note: Note): Generator<void, void> {
  const { limit } = search.allowance;
  const { levelsK } = search;
  for (const levelK of levelsK) {
    for (const width of [1, 3]) {
      search.allowance.limit = Math.min(limit, workUnits(search.allowance, search) + DIVE_UNITS);
      try {
        const found = yield* search.dive(levelK, COUNTS, search.masks, width);
        if (!found) continue;
        note(levelK === levelsK[0] ? 'margin' : null, levelK, found.heats);
        return;
      } catch (thrown) {
        if (!(thrown instanceof AllowanceSpent) || workUnits(search.allowance, search) > limit) throw thrown;
      } finally {
        search.allowance.limit = limit;
      }
    }
  }
}

function* allLevels(search: LevelSearch, limits: SearchLimits, note: Note): Generator<void, void> {
  const order = orderOf(limits);
  const stopsBefore = (level: LevelName): boolean => order.indexOf(limits.stopAt) < order.indexOf(level);
  if (search.problem.joints.length > PROVEN_AT_ONCE) yield* firstPlan(search, note);
  const top = yield* search.highest();
  if (!top) return;
  const { levelK, found: first } = top;
  note('heats', levelK, first.heats);
  if (search.problem.joints.length === 0) {
    note('time', levelK, first.heats);
    return;
  }

  const protections = protectionsOf(first.heats);
  const within = (weights: Weights, masks: readonly number[], bound: number): Generator<void, Found | null> =>
    search.solve(levelK, weights, masks, bound);
  const leastOf = (weights: Weights): number => weights.protection * protections + weights.heat * first.heats.length;
  let ranked = leastOf(RANKS) + RANKS.heat;
  if (limits.preferHigherGrades && !stopsBefore('preference')) {
    const found = (yield* within(RANKS, search.masks, ranked))!;
    ranked = found.cost + 1;
    note('preference', levelK, found.heats);
  }
  if (stopsBefore('grades')) return;
  const allowed = (masks: readonly number[]): Generator<void, Found | null> =>
    limits.preferHigherGrades ? within(RANKS, masks, ranked) : within(COUNTS, masks, leastOf(COUNTS) + 1);
  const sets = yield* fewestGrades(search, allowed);
  note('grades', levelK, sets[0]!.found.heats);
  if (stopsBefore(order[5]!) && stopsBefore(order[4]!)) return;
  let best = sets[0]!.found;
  let bound = Infinity;
  for (const { set } of sets) {
    const masks = search.masks.map((mask) => mask & set);
    const found = yield* within(stopsBefore('time') ? RANKS : EVERYTHING, masks, bound);
    if (!found) continue;
    best = found;
    bound = found.cost;
  }
  note(stopsBefore('time') ? 'preference' : 'time', levelK, best.heats);
}

/** Every smallest set of grades that still allows a plan. */
function* fewestGrades(
  search: LevelSearch,
  tried: (masks: readonly number[]) => Generator<void, Found | null>,
): Generator<void, { set: number; found: Found }[]> {
  const count = search.problem.grades.length;
  for (let size = 1; ; size++) {
    const sets: { set: number; found: Found }[] = [];
    for (let set = 1; set < 2 ** count; set++) {
      if (countBits(set) !== size) continue;
      const found = yield* tried(search.masks.map((mask) => mask & set));
      if (found) sets.push({ set, found });
    }
    if (sets.length > 0) return sets;
  }
}

/** Runs all levels. Yields every 128 options, so that a host may stop it or do other work; ends early when its work units are spent. */
export function* searchLevels(
  problem: SequenceProblem,
  oracle: HeatOracle,
  limits: SearchLimits,
): Generator<SearchStep, LevelsFound> {
  const search = new LevelSearch(problem, oracle, limits.workUnits);
  const order = orderOf(limits);
  let provenUpTo = -1;
  let best: { levelK: number; heats: readonly PlannedHeat[] } | null = null;
  let stoppedBy: LevelsFound['stoppedBy'] = null;
  let soFar: Proof[] | undefined;
  const spent = () => ({ workUnits: workUnits(search.allowance, search), thermalRuns: search.table.thermalRuns });
  try {
    const steps = allLevels(search, limits, (proven, levelK, heats) => {
      best = { levelK, heats };
      if (proven) provenUpTo = order.indexOf(proven);
      soFar = proofOf(search.problem, limits, best, provenUpTo);
    });
    while (!stoppedBy && !steps.next().done) {
      yield { ...spent(), ...(soFar && { proof: soFar }) };
      stoppedBy = limits.stopped?.() ?? null;
    }
  } catch (thrown) {
    if (!(thrown instanceof AllowanceSpent)) throw thrown;
    stoppedBy = 'work_units';
  }
  const outcome = outcomeOf(best !== null, stoppedBy !== null, provenUpTo >= order.indexOf(limits.stopAt));
  const concluded = conclude(search, limits, best, provenUpTo);
  // That no plan keeps the least margin is what was proven; of the other levels there is nothing to say.
  if (outcome === 'infeasible')
    concluded.proof = orderOf(limits).map((level) => ({ level, value: null, bound: null, proven: true, heuristic: false }));
  return { ...concluded, outcome, stoppedBy, ...spent() };
}

function outcomeOf(found: boolean, stopped: boolean, proven: boolean): LevelsFound['outcome'] {
  if (found) return proven ? 'optimal' : 'feasible';
  return stopped ? 'unknown' : 'infeasible';
}

function conclude(
  search: LevelSearch,
  limits: SearchLimits,
  best: { levelK: number; heats: readonly PlannedHeat[] } | null,
  provenUpTo: number,
): Pick<LevelsFound, 'heats' | 'proof'> {
  const { problem } = search;
  return { heats: best && fewestChanges(problem, best.heats), proof: proofOf(problem, limits, best, provenUpTo) };
}

function proofOf(
  problem: SequenceProblem,
  limits: SearchLimits,
  best: { levelK: number; heats: readonly PlannedHeat[] } | null,
  provenUpTo: number,
): Proof[] {
  const values = best && levelValues(problem, best.heats, best.levelK);
  const bounds: Record<LevelName, number> = {
    margin: problem.margin.targetK,
    protections: 0,
    heats: Math.ceil(problem.joints.length / problem.maxJointsPerHeat),
    grades: Math.min(1, problem.joints.length),
    preference: problem.joints.reduce((sum, { allowed }) => sum + (problem.grades[bitsOf(allowed)[0] ?? 0]?.rank ?? 0), 0),
    time: 0,
  };
  return orderOf(limits).map((level, i): Proof => {
    const proven = i <= provenUpTo;
    return { level, value: values?.[level] ?? null, bound: proven ? values![level] : bounds[level], proven, heuristic: false };
  });
}

/** The stages of a search: a first plan, the same made better, then what is best, level by level, each proven before the next. */

import type { Weights } from './section-question.ts';
import { AllowanceSpent, workUnits } from './allowance.ts';
import type { BestPlan } from './best-plan.ts';
import { improvePlan } from './improve-plan.ts';
import { COUNTS, EVERYTHING, FEASIBLE, RANKS, type LevelSearch } from './level-search.ts';
import type { LevelName } from './levels.ts';
import { priceOfPlan } from './level-values.ts';
import type { Found } from './stock-search.ts';

/**
 * Up to this many open joints the levels are proven one by one from the start; above it a plan is sought first. More where small sets
 * of joints bound the whole, and a heat costs next to nothing.
 */
const PROVEN_AT_ONCE = { bounded: 8, unbounded: 6 };
/** From this many on, solders and time of the plan are seen to before it is proven that it needs no fewer protections and heats. */
const POLISHED_FROM = 11;

/** Work units for each joint that one dive may take, one for any plan at all, and the improving of one plan. They do not depend on what there is, so that more is never worse. */
const DIVE_UNITS_A_JOINT = 4000;
const ANY_PLAN_UNITS_A_JOINT = 40_000;
const IMPROVE_UNITS_A_JOINT = 10_000;

/** Heats followed at once in a dive: first one, for a plan at all, then more for a better one. */
const WIDTHS = [1, 6] as const;
/** From this many joints on, some plan is sought before a good one. */
const MANY = 20;
/** Above this many joints the wider dive takes long and helps little. */
const WIDE_UP_TO = 40;

export function* allStages(search: LevelSearch, best: BestPlan, stopAt: LevelName): Generator<void, void> {
  const atOnce = search.table.oracle.isMonotone ? PROVEN_AT_ONCE.bounded : PROVEN_AT_ONCE.unbounded;
  if (search.problem.joints.length > atOnce) {
    yield* firstPlan(search, best);
    best.proveByBounds();
    if (search.problem.joints.length >= POLISHED_FROM) yield* polish(search, best, stopAt);
    if (best.isProven(stopAt)) return;
  }
  yield* provenLevels(search, best, stopAt);
}

/** Runs some work within so many units; whether it came to its end. */
function* within(search: LevelSearch, units: number, work: Generator<void, void>): Generator<void, boolean> {
  const { limit } = search.allowance;
  search.allowance.limit = Math.min(limit, workUnits(search.allowance, search) + units);
  try {
    yield* work;
    return true;
  } catch (thrown) {
    if (!(thrown instanceof AllowanceSpent) || workUnits(search.allowance, search) >= limit) throw thrown;
    return false;
  } finally {
    search.allowance.limit = limit;
  }
}

/** A plan at the highest level where a dive finds one, and what comes of it. */
function* firstPlan(search: LevelSearch, best: BestPlan): Generator<void, void> {
  const units = DIVE_UNITS_A_JOINT * search.problem.joints.length;
  for (const levelK of search.levelsK) {
    let found: Found | null = null;
    const dive = function* (width: number, weights = COUNTS): Generator<void, void> {
      const dived = yield* search.dive(levelK, weights, search.masks, { width, bound: found?.cost ?? Infinity });
      if (dived) found = { ...dived, cost: priceOfPlan(search, dived.heats, COUNTS) };
    };
    yield* within(search, units, dive(WIDTHS[0]));
    // What costs least now may leave too little choice later: then what leaves most is followed.
    if (!found) yield* within(search, units, dive(WIDTHS[0], FEASIBLE));
    if (found) best.offer(levelK, (found as Found).heats);
    else if (levelK === search.problem.margin.targetK && search.problem.joints.length >= MANY) yield* anyPlan(search, best);
    // What small sets of joints cost is not looked at before there is a plan, where there is one at once.
    const { rows } = search;
    const floor = search.windowFloor(levelK, rows);
    if (floor === Infinity) {
      best.mostK = Math.min(best.mostK, levelK - search.problem.margin.stepK);
      continue;
    }
    best.boundProtections(levelK, floor);
    const isDone = (): boolean => found !== null && found.cost <= floor * COUNTS.protection + best.leastHeats;
    if (!isDone() && search.problem.joints.length <= WIDE_UP_TO) yield* within(search, units, dive(WIDTHS[1]));
    if (!found) continue;
    best.offer(levelK, (found as Found).heats);
    if (!isDone()) yield* improve(search, best, levelK, COUNTS, rows);
    return;
  }
}

/** Where the margin that is wanted is not soon kept, a plan that keeps the least, for there to be one. */
function* anyPlan(search: LevelSearch, best: BestPlan): Generator<void, void> {
  const levelK = search.levelsK.at(-1)!;
  const dive = function* (): Generator<void, void> {
    const found = yield* search.dive(levelK, FEASIBLE, search.masks, { width: WIDTHS[0], bound: Infinity });
    if (found) best.offer(levelK, found.heats);
  };
  yield* within(search, ANY_PLAN_UNITS_A_JOINT * search.problem.joints.length, dive());
}

function* improve(
  search: LevelSearch,
  best: BestPlan,
  levelK: number,
  weights: Weights,
  rows: Uint8Array,
): Generator<void, void> {
  const { heats } = best.plan!;
  const found = { cost: priceOfPlan(search, heats, weights), heats: [...heats] };
  const offering = function* (): Generator<void, void> {
    const steps = improvePlan(search, { levelK, weights, rows }, found, search.allowance);
    for (let step = steps.next(); !step.done; step = steps.next()) {
      if (step.value) best.offer(levelK, step.value.heats);
      yield;
    }
  };
  yield* within(search, IMPROVE_UNITS_A_JOINT * search.problem.joints.length, offering());
}

/** Fewer or higher solders and less time for the plan there is, at no more protections and heats; nothing of it is proven. */
function* polish(search: LevelSearch, best: BestPlan, stopAt: LevelName): Generator<void, void> {
  if (!best.plan || best.order.indexOf(stopAt) < best.order.indexOf('grades')) return;
  const { levelK } = best.plan;
  for (let size = 1; size < best.valueOf('grades')!; size++) {
    for (const masks of search.maskSets(size)) {
      const bound = priceOfPlan(search, best.plan.heats, COUNTS) + 1;
      const fewer = function* (): Generator<void, void> {
        const found = yield* search.dive(levelK, COUNTS, masks, { width: 1, bound });
        if (found) best.offer(levelK, found.heats);
      };
      yield* within(search, DIVE_UNITS_A_JOINT * search.problem.joints.length, fewer());
    }
  }
  const used = best.plan.heats.reduce((mask, { grade }) => mask | (1 << grade), 0);
  const masks =
    best.order.indexOf('preference') < best.order.indexOf('grades') ? search.masks : search.masks.map((mask) => mask & used);
  yield* improve(search, best, levelK, EVERYTHING, search.rowsOf(masks));
}

function* provenLevels(search: LevelSearch, best: BestPlan, stopAt: LevelName): Generator<void, void> {
  const { order } = best;
  const stopsBefore = (level: LevelName): boolean => order.indexOf(stopAt) < order.indexOf(level);
  if (!best.isProven('heats')) {
    const top = yield* search.highest(best);
    if (!top) return;
    best.offer(top.levelK, top.found.heats);
    best.prove('heats');
  }
  const { levelK, heats } = best.plan!;
  if (heats.length === 0) {
    best.prove('time');
    return;
  }
  const counts = priceOfPlan(search, heats, COUNTS);
  /** A little more than the best plan there is, so that it is found again if there is none better. */
  const atMost = (weights: Weights): number => priceOfPlan(search, best.plan!.heats, weights) + 1;
  let ranked = Infinity;
  if (order.indexOf('preference') < order.indexOf('grades') && !stopsBefore('preference')) {
    const found = (yield* search.solve(levelK, RANKS, search.masks, atMost(RANKS)))!;
    ranked = found.cost + 1;
    best.offer(levelK, found.heats);
    best.prove('preference');
  }
  if (stopsBefore('grades')) return;
  const allowed = (masks: readonly number[]): Generator<void, Found | null> =>
    ranked < Infinity ? search.solve(levelK, RANKS, masks, ranked) : search.solve(levelK, COUNTS, masks, counts + 1);
  const sets: (readonly number[])[] = [];
  for (let size = 1; sets.length === 0; size++) {
    for (const masks of search.maskSets(size)) {
      const found = yield* allowed(masks);
      if (!found) continue;
      best.offer(levelK, found.heats);
      sets.push(masks);
    }
  }
  best.prove('grades');
  if (stopsBefore(order[5]!) && stopsBefore(order[4]!)) return;
  const last = stopsBefore('time') ? RANKS : EVERYTHING;
  for (const masks of sets) {
    const found = yield* search.solve(levelK, last, masks, atMost(last) - 1);
    if (found) best.offer(levelK, found.heats);
  }
  best.prove(stopsBefore('time') ? 'preference' : 'time');
}

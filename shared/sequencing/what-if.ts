import { operationsFromPlan } from '../costing/operations-from-plan.ts';
import { expandHeat } from '../design/expand-design.ts';
import type { Heat, Plan } from '../design/plan.ts';
import { runToEnd } from '../run-to-end.ts';
import { applyEdit, EditFault } from './apply-edit.ts';
import { expandedHeats, planToCheck, verdictOf, type PlanCheckRequest, type PlanServices } from './check-plan.ts';
import { changedHeats } from './changed-heats.ts';
import { checkHeats, type CheckedHeats, type FoundProblem } from './heat-check.ts';
import { namingFaults, ruleNames } from './naming-faults.ts';
import type { PlanEdit } from './plan-check-answer.ts';
import { planFaults } from './plan-faults.ts';
import { planOf } from './plan-of-heats.ts';
import type { Fault, PlanToCheck } from './plan-to-check.ts';
import type { WhatIfOutcome } from './what-if-answer.ts';
import { whatIfSentence } from './what-if-sentence.ts';

/** The same as whatIfSteps, run to its end. */
export function whatIf(request: PlanCheckRequest, edits: readonly PlanEdit[], services: PlanServices = {}): WhatIfOutcome {
  return runToEnd(whatIfSteps(request, edits, services));
}

/**
 * What one or several edits of a plan would change: flow times, what each earlier joint and part comes to where that is 1 K or more
 * or another verdict, problems that go and come, seconds of flame and minutes of hands. The edits are made one after the other, each
 * counting heats as the one before left them. Heats that no edit touches are simulated once. A generator: it yields after every heat.
 *
 * @returns every fault: of the plan as it was, at /plan; of an edit that cannot be made, at /edits and its number; of the plan as the
 *   edits leave it, at /edits
 * @throws {EngineInputError} for a size or number outside what the heat model covers
 */
export function* whatIfSteps(
  request: PlanCheckRequest,
  edits: readonly PlanEdit[],
  services: PlanServices = {},
): Generator<void, WhatIfOutcome> {
  const input = planToCheck({ ...request, histories: false }, services);
  const named = { given: request.design, solders: request.solders, plan: request.plan };
  const faults = input ? [...ruleNames(named), ...planFaults(input)] : namingFaults(named);
  if (!input || faults.length > 0) return { outcome: 'faults', faults };
  const heats = expandedHeats(input);
  const made = withEdits(input, heats, edits);
  if ('faults' in made) return { outcome: 'faults', faults: made.faults };
  const [before, after] = [yield* checkHeats(input, heats), yield* checkHeats(input, made.heats)];
  const plan = planOf(input, made.heats);
  const isSamePlan = JSON.stringify(heats) === JSON.stringify(made.heats);
  const changed = changedHeats({ heats, checks: before.heats }, { heats: made.heats, checks: after.heats });
  const difference = {
    plan,
    verdict: { before: verdictOf(before), after: verdictOf(after) },
    flameS: { before: flameOf(before), after: flameOf(after) },
    handsOnMinutes: { before: minutesOf(input, request.plan), after: minutesOf(input, plan) },
    heats: changed,
    problems: { gone: beyond(before, after), new: beyond(after, before) },
  };
  return { outcome: 'checked', ...difference, says: whatIfSentence(difference, isSamePlan) };
}

function withEdits(
  input: PlanToCheck,
  heats: readonly Heat[],
  edits: readonly PlanEdit[],
): { heats: Heat[] } | { faults: Fault[] } {
  let edited = [...heats];
  for (const [i, edit] of edits.entries()) {
    try {
      edited = applyEdit(input, edited, edit);
    } catch (thrown) {
      if (!(thrown instanceof EditFault)) throw thrown;
      return { faults: [{ pointer: `/edits/${i}`, detail: thrown.message }] };
    }
  }
  if (edited.length === 0) return { faults: [{ pointer: '/edits', detail: 'The edits leave no heat' }] };
  const faults = planFaults({ ...input, plan: { heats: edited } });
  if (faults.length > 0) return { faults: faults.map(({ detail }) => ({ pointer: '/edits', detail })) };
  return { heats: edited.map((heat) => expandHeat(heat, input)) };
}

function flameOf({ heats }: CheckedHeats): number | null {
  const times = heats.filter(({ solder }) => solder !== null).map(({ timeToFlowS }) => timeToFlowS);
  return times.includes(null) ? null : times.reduce<number>((sum, timeS) => sum + timeS!, 0);
}

function minutesOf({ given }: PlanToCheck, plan: Plan): number {
  const minutes = operationsFromPlan({ design: given, plan }).reduce((sum, line) => sum + line.minutes, 0);
  return Math.round(minutes * 10) / 10;
}

/** Problems of one check that the other does not have. */
function beyond(one: CheckedHeats, other: CheckedHeats): FoundProblem[] {
  const had = new Set(other.problems.map((problem) => keyOf(other, problem)));
  return one.problems.filter((problem) => !had.has(keyOf(one, problem)));
}

/** What happens to what, in the heat of these joints. */
function keyOf({ heats }: CheckedHeats, { heat, rule, joint, part }: FoundProblem): string {
  return JSON.stringify([rule, joint, part, heats[heat - 1]!.joints.toSorted()]);
}

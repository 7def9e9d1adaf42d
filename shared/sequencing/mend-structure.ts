/** What would put right a plan that breaks a rule: small edits, each looked at for the rules, and those that break least in the fire. */

import { expandHeat } from '../design/expand-design.ts';
import type { Heat } from '../design/plan.ts';
import { checkHeats } from './heat-check.ts';
import type { Mend } from './plan-check-answer.ts';
import { moveHeat, moveJoint, movesWithSolder, otherSolders, ownHeatEdits, type EditedPlan } from './plan-edits.ts';
import { planFaults } from './plan-faults.ts';
import { planOf } from './plan-of-heats.ts';
import type { Fault, PlanToCheck } from './plan-to-check.ts';
import { problemsAreLeft } from './suggest-fixes.ts';

/** Edited plans that keep every rule and are run through the heat model, for one request. */
const MOST_PLAYED = 60;

interface Looked {
  edited: EditedPlan;
  faults: Fault[];
}

/**
 * For each fault the one edit that puts it right and leaves least: fewest faults, then fewest problems. Null where no edit tried does,
 * as where a joint is in no heat, or a name stands for nothing.
 *
 * @param faults of the plan, all its names known
 */
export function* mendStructure(
  input: PlanToCheck,
  faults: readonly Fault[],
  isStopped: () => boolean = () => false,
): Generator<void, (Mend | null)[]> {
  const heats = input.plan.heats.map((heat) => expandHeat(heat, input));
  const looked: Looked[] = [];
  for (const edited of candidates(input, heats)) {
    if (isStopped()) break;
    const plan = planOf(input, edited.heats);
    looked.push({ edited, faults: planFaults({ ...input, plan }) });
    yield;
  }
  const problems = new Map<EditedPlan, number>();
  let left = MOST_PLAYED;
  function* problemsOf({ edited, faults: remaining }: Looked): Generator<void, number> {
    if (remaining.length > 0) return 0;
    if (!problems.has(edited) && left > 0 && !isStopped()) {
      left--;
      const { problems: found } = yield* checkHeats(
        input,
        edited.heats.map((heat) => expandHeat(heat, input)),
      );
      problems.set(edited, found.length);
    }
    return problems.get(edited) ?? Infinity;
  }
  const mends: (Mend | null)[] = [];
  for (const { detail } of faults) {
    const right = looked.filter(
      (each) => each.faults.length < faults.length && each.faults.every((other) => other.detail !== detail),
    );
    const least = Math.min(...right.map((each) => each.faults.length));
    let best: { looked: Looked; problems: number } | null = null;
    for (const each of right) {
      if (each.faults.length > least) continue;
      const count = yield* problemsOf(each);
      if (!best || count < best.problems) best = { looked: each, problems: count };
      if (count === 0) break;
    }
    mends.push(best && mendOf(input, best.looked, best.problems));
    yield;
  }
  return mends;
}

function rulesAreLeft(count: number): string {
  if (count === 0) return 'no broken rule is left';
  return count === 1 ? '1 broken rule is left' : `${count} broken rules are left`;
}

function mendOf(input: PlanToCheck, { edited, faults }: Looked, problemsLeft: number): Mend {
  const { edit, heats, says } = edited;
  const isPlayed = faults.length === 0 && problemsLeft < Infinity;
  const left = isPlayed ? problemsAreLeft(problemsLeft) : `${rulesAreLeft(faults.length)}, not yet tried in the fire`;
  return {
    change: { ...edit, plan: planOf(input, heats) },
    faultsLeft: faults.length,
    problemsLeft: isPlayed ? problemsLeft : 0,
    says: `${says}: ${left}`,
  };
}

function candidates({ solders }: PlanToCheck, heats: readonly Heat[]): EditedPlan[] {
  return heats.flatMap((heat, h): EditedPlan[] => {
    if (heat.purpose === 'anneal') return [];
    const places = [...heats.keys()].filter((to) => to !== h);
    const moved = places.map((to) => moveHeat(heats, h, to));
    const joined = heat.joints.flatMap((joint) =>
      places.filter((to) => heats[to]!.purpose !== 'anneal').map((to) => moveJoint(heats, joint, h, to)),
    );
    const own = heat.joints.length > 1 ? heat.joints.flatMap((joint) => ownHeatEdits(heats, h, joint)) : [];
    return [...otherSolders(solders, heats, h), ...moved, ...joined, ...own, ...movesWithSolder(solders, heats, h)];
  });
}

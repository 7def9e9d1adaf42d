import type { Heat } from '../design/plan.ts';
import { cautionsIn, checkHeats, type FoundProblem } from './heat-check.ts';
import type { BestFix } from './plan-check-answer.ts';
import { editsFor, type EditedPlan } from './plan-edits.ts';
import { planOf } from './plan-of-heats.ts';
import { planFaults } from './plan-faults.ts';
import type { PlanToCheck } from './plan-to-check.ts';

/** Edited plans checked for one request; a plan with more problems than this serves is better searched than mended. */
export const MOST_EDITS_CHECKED = 300;

/** How much is wrong with a plan: problems, then cautions. */
interface Wrong {
  problems: number;
  cautions: number;
}

const isLess = (a: Wrong, b: Wrong): boolean => a.problems < b.problems || (a.problems === b.problems && a.cautions < b.cautions);

export interface SuggestedFixes {
  fixes: (BestFix | null)[];
  /** Edits were left untried, for their number or because the host said stop: a problem without a fix may have one. */
  isCutShort: boolean;
}

export interface FixLimits {
  mostChecked?: number;
  /** Asked before each edit; true: no more are tried. */
  isStopped?: (() => boolean) | undefined;
}

/**
 * For each problem the one small edit that leaves least wrong, each tried by checking the whole plan again; of equals the first of editsFor().
 *
 * @param heats in the ids of the expanded design
 * @returns one fix a problem, in their order; null where no edit tried leaves fewer problems than there are
 */
export function* suggestFixes(
  input: PlanToCheck,
  heats: readonly Heat[],
  problems: readonly FoundProblem[],
  { mostChecked = MOST_EDITS_CHECKED, isStopped = () => false }: FixLimits = {},
): Generator<void, SuggestedFixes> {
  const known = new Map<string, Wrong | null>();
  const fixes: (BestFix | null)[] = [];
  let isCutShort = false;
  for (const problem of problems) {
    let best: { edited: EditedPlan; wrong: Wrong } | null = null;
    for (const edited of editsFor(input, heats, problem)) {
      const key = JSON.stringify(edited.heats);
      if (!known.has(key)) {
        if (known.size < mostChecked && !isStopped()) known.set(key, yield* countWrong(input, edited.heats));
        else isCutShort = true;
      }
      const wrong = known.get(key) ?? null;
      if (wrong && wrong.problems < problems.length && (!best || isLess(wrong, best.wrong))) best = { edited, wrong };
      // No later edit leaves less.
      if (best && best.wrong.problems + best.wrong.cautions === 0) break;
    }
    fixes.push(best && fixOf(input, best.edited, best.wrong.problems));
  }
  return { fixes, isCutShort };
}

function* countWrong(input: PlanToCheck, heats: readonly Heat[]): Generator<void, Wrong | null> {
  if (planFaults({ ...input, plan: { heats } }).length > 0) return null;
  const checked = yield* checkHeats(input, heats);
  const cautions = checked.heats.flatMap(cautionsIn);
  return { problems: checked.problems.length, cautions: cautions.length };
}

function fixOf(input: PlanToCheck, { edit, heats, says }: EditedPlan, problemsLeft: number): BestFix {
  const plan = planOf(input, heats);
  const left =
    problemsLeft === 0 ? 'no problem is left' : `${problemsLeft} ${problemsLeft === 1 ? 'problem is' : 'problems are'} left`;
  return { change: { ...edit, plan }, problemsLeft, says: `${says}: ${left}` };
}

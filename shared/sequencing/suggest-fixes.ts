import type { Heat } from '../design/plan.ts';
import { cautionsIn, checkHeats, type FoundProblem } from './heat-check.ts';
import type { BestFix } from './plan-check-answer.ts';
import { flowHelps, type FlowHelps } from './flow-helps.ts';
import { editsFor, helpEdits, type EditedPlan } from './plan-edits.ts';
import { planOf } from './plan-of-heats.ts';
import { planFaults } from './plan-faults.ts';
import type { PlanToCheck } from './plan-to-check.ts';

/** Edited plans checked and helps tried for one request; a plan with more problems than this serves is better searched than mended. */
export const MOST_EDITS_CHECKED = 300;

/** How much is wrong with a plan: problems, then cautions. */
interface Wrong {
  problems: number;
  cautions: number;
}

const isLess = (a: Wrong, b: Wrong): boolean => a.problems < b.problems || (a.problems === b.problems && a.cautions < b.cautions);

export interface SuggestedFixes {
  fixes: (BestFix | null)[];
  /** For each problem; none but where a heat does not flow. */
  helps: Pick<FlowHelps, 'helps' | 'nothingHelps'>[];
  /** Edits or helps were left untried, for their number or because the host said stop: a problem without a fix may have one. */
  isCutShort: boolean;
}

export interface FixLimits {
  mostChecked?: number;
  /** Asked before each edit and help; true: no more are tried. */
  isStopped?: (() => boolean) | undefined;
}

/**
 * For each problem the one small edit that leaves least wrong, each tried by checking the whole plan again; of equals the first of helpEdits() and editsFor(). For a heat that does not flow also what would bring it to flow.
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
  const answer: SuggestedFixes = { fixes: [], helps: [], isCutShort: false };
  const stuck = problems.filter(({ rule }) => rule === 'does_not_flow').map(({ heat }) => heat);
  // What makes a heat flow may mend what else is wrong with it.
  const triesOf = new Map<number, FlowHelps['tries']>();
  let left = mostChecked;
  const mayTry = (): boolean => {
    const may = left > 0 && !isStopped();
    if (may) left--;
    else answer.isCutShort = true;
    return may;
  };
  for (const problem of problems) {
    const { heat: number, rule } = problem;
    const helped = rule === 'does_not_flow' ? yield* flowHelps(input, heats, { number, mayTry }) : null;
    if (helped) triesOf.set(number, helped.tries);
    answer.helps.push(helped ? { helps: helped.helps, nothingHelps: helped.nothingHelps } : { helps: [], nothingHelps: null });
    const ofHelps = helpEdits(heats, triesOf.get(number) ?? [], { number, stuck });
    let best: { edited: EditedPlan; wrong: Wrong } | null = null;
    for (const edited of [...ofHelps, ...editsFor(input, heats, problem)]) {
      const key = JSON.stringify(edited.heats);
      if (!known.has(key) && mayTry()) known.set(key, yield* countWrong(input, edited.heats));
      const wrong = known.get(key) ?? null;
      if (wrong && wrong.problems < problems.length && (!best || isLess(wrong, best.wrong))) best = { edited, wrong };
      // No later edit leaves less.
      if (best && best.wrong.problems + best.wrong.cautions === 0) break;
    }
    answer.fixes.push(best && fixOf(input, best.edited, best.wrong.problems));
  }
  return answer;
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

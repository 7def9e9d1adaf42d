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

/** How much is wrong with a plan. */
interface Wrong {
  problems: number;
  /** Problems, those that are predicted counting twice beside those that may be. */
  weight: number;
  cautions: number;
}

const isLess = (a: Wrong, b: Wrong): boolean => a.weight < b.weight || (a.weight === b.weight && a.cautions < b.cautions);

const weightOf = (problems: readonly FoundProblem[]): number =>
  problems.reduce((sum, { marginK }) => sum + (marginK !== null && marginK >= 0 ? 1 : 2), 0);

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
 * @returns one fix a problem, in their order; null where no edit tried leaves less wrong than there is
 */
export function* suggestFixes(
  input: PlanToCheck,
  heats: readonly Heat[],
  problems: readonly FoundProblem[],
  { mostChecked = MOST_EDITS_CHECKED, isStopped = () => false }: FixLimits = {},
): Generator<void, SuggestedFixes> {
  const known = new Map<string, Wrong | null>();
  const keyOf = planKeys();
  const answer: SuggestedFixes = { fixes: [], helps: [], isCutShort: false };
  const stuck = problems.filter(({ rule }) => rule === 'does_not_flow').map(({ heat }) => heat);
  // What makes a heat flow may mend what else is wrong with it.
  const triesOf = new Map<number, FlowHelps['tries']>();
  const now = weightOf(problems);
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
      const key = keyOf(edited.heats);
      if (!known.has(key) && mayTry()) known.set(key, yield* countWrong(input, edited.heats));
      const wrong = known.get(key) ?? null;
      const isBetter = wrong !== null && wrong.weight < now && wrong.problems <= problems.length;
      if (isBetter && (!best || isLess(wrong, best.wrong))) best = { edited, wrong };
      // No later edit leaves less.
      if (best && best.wrong.problems + best.wrong.cautions === 0) break;
    }
    answer.fixes.push(best && fixOf(input, best.edited, best.wrong.problems));
    // Looking through the edits of many problems takes its time also where none is tried any more.
    yield;
  }
  return answer;
}

/** One key for plans of the same heats, each heat read once: edits of one plan share nearly all of theirs. */
function planKeys(): (heats: readonly Heat[]) => string {
  const numbers = new Map<string, number>();
  const numberOf = new WeakMap<Heat, number>();
  const read = (heat: Heat): number => {
    const text = JSON.stringify(heat);
    const number = numbers.get(text) ?? numbers.size;
    numbers.set(text, number);
    numberOf.set(heat, number);
    return number;
  };
  return (heats) => heats.map((heat) => numberOf.get(heat) ?? read(heat)).join();
}

function* countWrong(input: PlanToCheck, heats: readonly Heat[]): Generator<void, Wrong | null> {
  if (planFaults({ ...input, plan: { heats } }).length > 0) return null;
  const checked = yield* checkHeats(input, heats);
  const cautions = checked.heats.flatMap(cautionsIn);
  return { problems: checked.problems.length, weight: weightOf(checked.problems), cautions: cautions.length };
}

export function problemsAreLeft(count: number): string {
  if (count === 0) return 'no problem is left';
  return count === 1 ? '1 problem is left' : `${count} problems are left`;
}

function fixOf(input: PlanToCheck, { edit, heats, says }: EditedPlan, problemsLeft: number): BestFix {
  const plan = planOf(input, heats);
  return { change: { ...edit, plan }, problemsLeft, says: `${says}: ${problemsAreLeft(problemsLeft)}` };
}

/** Plans nearly as good as the best, that a maker may still prefer. */

import type { DesignQuestion } from './design-problem.ts';
import { designProblem } from './design-problem.ts';
import { fewestChanges } from './fewest-changes.ts';
import { handForm } from './hand-form.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import type { HeatOracle } from './heat-oracle.ts';
import { levelsOf, tradeOffOf } from './trade-off.ts';
import type { LevelName, Proof } from './levels.ts';
import type { Heat } from '../design/plan.ts';
import { planDifferences } from './plan-differences.ts';
import { heatsOf } from './plan-of-heats.ts';
import { earlierHeats } from './plan-order.ts';
import type { PlannedHeat } from './planned-heats.ts';
import { searchLevels } from './search-levels.ts';
import { bitsOf, type SequenceProblem } from './sequence-problem.ts';
import { isSpent, remembering, type Purse } from './trial.ts';

export interface OtherPlan {
  heats: Heat[];
  /** What it costs and gains beside the best, and what is done otherwise. */
  tradeOff: string;
}

export interface BestFound {
  question: DesignQuestion;
  heats: readonly PlannedHeat[];
  proof: readonly Proof[];
  preferHigherGrades: boolean;
}

/** Told beside the best. */
const MOST_TOLD = 3;
/** Work units for one question: it mostly finds quickly what it finds. */
const UNITS_EACH = 60_000;
/** Of the questions that turn one heat, so many. */
const MOST_TURNED = 12;
/** Highest margin that people ask for beyond the uncertainty. K */
const MOST_MARGIN_K = 30;

/** A question whose answer is another plan. */
interface Turn {
  kind: 'preference' | 'protections' | 'margin' | 'grades' | 'order' | 'grouping' | 'solder';
  problem: SequenceProblem;
  preferHigherGrades: boolean;
}

interface Candidate extends OtherPlan {
  kind: Turn['kind'];
  /** What it costs beside the best less what it gains. */
  worse: number;
}

/**
 * Each differs from the best and from each other in something the hand does: asked for are grades before their number or the other way
 * round, less margin with fewer protections or heats, more margin, fewer solders, and the best plan with one of its orders turned, one
 * of its groups parted or one of its solders left out. None costs more than a step or two beside what it gains.
 *
 * @param known forms of plans that are shown already, by handForm()
 */
export function* otherPlans(best: BestFound, known: ReadonlySet<string>, purse: Purse): Generator<void, OtherPlan[]> {
  const { question } = best;
  const problem = designProblem(question);
  const design = question.design;
  const chosen = heatsOf(problem, best.heats);
  const work = handForm(design, chosen.map(bare));
  const forms = new Set([...known, handForm(design, chosen)]);
  const from = levelsOf(best.proof);
  const found: Candidate[] = [];
  const own: Purse = { workUnits: 0, isStopped: purse.isStopped };
  const oracle = remembering(heatModelOracle(question), own);
  for (const turn of turnsOf(problem, best)) {
    if (isSpent(purse)) break;
    const answer = yield* asked(turn, oracle, own, purse);
    if (!answer) continue;
    const heats = heatsOf(problem, fewestChanges(turn.problem, answer.heats));
    const form = handForm(design, heats);
    if (forms.has(form)) continue;
    const { worse, gains, says } = tradeOffOf(from, levelsOf(answer.proof), planDifferences(design, chosen, heats));
    const isOnlySolder = handForm(design, heats.map(bare)) === work;
    if (worse > MOST_WORSE || (worse > 0 && gains === 0 && isOnlySolder)) continue;
    forms.add(form);
    found.push({ kind: turn.kind, heats, tradeOff: says, worse });
  }
  return chosenOf(found).map(({ heats, tradeOff }) => ({ heats, tradeOff }));
}

const bare = ({ solder: _solder, ...heat }: Heat): Heat => heat;

/** By how much more than it gains a plan may cost. */
const MOST_WORSE = 1;

/** The best of each kind first, then the next best. */
function chosenOf(found: readonly Candidate[]): Candidate[] {
  const sorted = found.toSorted((a, b) => a.worse - b.worse);
  const first = sorted.filter(({ kind }, i) => sorted.findIndex((each) => each.kind === kind) === i);
  return [...first, ...sorted.filter((each) => !first.includes(each))].slice(0, MOST_TOLD);
}

function* asked(
  { problem, preferHigherGrades }: Turn,
  oracle: HeatOracle,
  own: Purse,
  purse: Purse,
): Generator<void, { heats: PlannedHeat[]; proof: Proof[] } | null> {
  const units = Math.min(UNITS_EACH, purse.workUnits);
  own.workUnits = units;
  const limits = { workUnits: units, stopAt: 'preference' as LevelName, preferHigherGrades };
  const steps = searchLevels(problem, oracle, limits);
  let step = steps.next();
  while (!step.done && !(purse.isStopped?.() ?? false)) {
    yield;
    step = steps.next();
  }
  if (!step.done) return null;
  purse.workUnits -= units - own.workUnits + step.value.workUnits;
  const { heats, proof } = step.value;
  return heats && { heats, proof };
}

function turnsOf(problem: SequenceProblem, { heats, proof, preferHigherGrades }: BestFound): Turn[] {
  const { margin, protections, heats: count, grades, preference } = levelsOf(proof);
  const { stepK } = problem.margin;
  const at = (leastK: number, targetK: number) => ({ ...problem, margin: { leastK, targetK, stepK } });
  const turn = (kind: Turn['kind'], turned: SequenceProblem): Turn => ({ kind, problem: turned, preferHigherGrades });
  const turns: Turn[] = [];
  if (grades > 1 || preference > 0)
    turns.push({ kind: 'preference', problem: at(margin, margin), preferHigherGrades: !preferHigherGrades });
  if (margin > 0 && (protections > 0 || count > 1)) turns.push(turn('protections', at(0, 0)));
  if (margin >= problem.margin.targetK && margin < MOST_MARGIN_K) turns.push(turn('margin', at(margin + stepK, MOST_MARGIN_K)));
  const used = [...new Set(heats.map(({ grade }) => grade))];
  if (used.length > 1) {
    for (const left of used) {
      const fewer = restrictedGrades(
        at(Math.min(0, margin), margin),
        used.filter((grade) => grade !== left),
      );
      if (fewer) turns.push(turn('grades', fewer));
    }
  }
  return [
    ...turns,
    ...turnedHeats(at(margin, margin), heats)
      .map(({ kind, problem: turned }) => turn(kind, turned))
      .slice(0, MOST_TURNED),
  ];
}

function restrictedGrades(problem: SequenceProblem, grades: readonly number[]): SequenceProblem | null {
  const mask = grades.reduce((all, grade) => all | (1 << grade), 0);
  const joints = problem.joints.map((joint) => ({ ...joint, allowed: joint.allowed & mask }));
  return joints.some(({ allowed }) => allowed === 0) ? null : { ...problem, joints };
}

/** The problem with one thing of a plan forbidden: an order of two heats of one fire, two joints in one heat, a solder in one heat. */
function turnedHeats(
  problem: SequenceProblem,
  heats: readonly PlannedHeat[],
): { kind: 'order' | 'grouping' | 'solder'; problem: SequenceProblem }[] {
  const earlier = earlierHeats(problem, heats);
  const orders = heats.flatMap(({ targets: later }, i) =>
    earlier[i]!.flatMap((k) => {
      const [a, b] = [heats[k]!.targets[0]!, later[0]!];
      if (problem.after[a]!.includes(b)) return [];
      const after = problem.after.map((joints, j) => (j === b ? [...joints, a] : joints));
      return [{ kind: 'order' as const, problem: { ...problem, after } }];
    }),
  );
  const groups = heats
    .filter(({ targets }) => targets.length > 1)
    .flatMap(({ targets }) =>
      targets.map((a, i) => [a, targets[(i + 1) % targets.length]!] as const).slice(0, targets.length === 2 ? 1 : targets.length),
    )
    .filter(([a, b]) => !problem.together.some((group) => group.includes(a) && group.includes(b)))
    .map(([a, b]) => {
      const apart = problem.apart.map((joints, j) => (j === a ? [...joints, b] : j === b ? [...joints, a] : joints));
      return { kind: 'grouping' as const, problem: { ...problem, apart } };
    });
  const solders = heats.flatMap(({ targets, grade }) => {
    const joints = problem.joints.map((joint, j) =>
      targets.includes(j) ? { ...joint, allowed: joint.allowed & ~(1 << grade) } : joint,
    );
    if (joints.some(({ allowed }) => bitsOf(allowed).length === 0)) return [];
    return [{ kind: 'solder' as const, problem: { ...problem, joints } }];
  });
  const most = Math.max(orders.length, groups.length, solders.length);
  return Array.from({ length: most }, (_, i) => [orders[i], groups[i], solders[i]])
    .flat()
    .filter((each) => each !== undefined);
}

/** Why no plan can be: what stands in the way, the least of it that can be named, and what would let a plan be. */

import { AllowanceSpent, workUnits } from './allowance.ts';
import type { DesignRules } from '../design/design.ts';
import { designProblem, unfit, type DesignQuestion } from './design-problem.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import { LevelSearch } from './level-search.ts';
import type { Conflict } from './plan-search-request.ts';
import { bitsOf, countBits, type SequenceProblem } from './sequence-problem.ts';
import { removableRules } from './removable-rules.ts';
import { restricted } from './restricted-problem.ts';

/** Sets of joints are tried one by one up to this many open joints; above it only small ones. */
const ALL_SETS_UP_TO = 6;
const SMALL_SET = 3;

/** Whether any plan of some of the joints, or of all, reaches level 0; null when the allowance does not last. */
export function* canBeMade(
  question: DesignQuestion,
  purse: { workUnits: number },
  only?: readonly number[],
): Generator<void, boolean | null> {
  const problem = designProblem(question);
  const search = new LevelSearch(only ? restricted(problem, only) : problem, heatModelOracle(question), purse.workUnits);
  try {
    return (yield* search.fewest(0)) !== null;
  } catch (thrown) {
    if (!(thrown instanceof AllowanceSpent)) throw thrown;
    return null;
  } finally {
    purse.workUnits -= workUnits(search.allowance, search);
  }
}

/** @param purse what the explanation may spend; what is left of it stays in it */
export function* explainInfeasible(question: DesignQuestion, purse: { workUnits: number }): Generator<void, Conflict | null> {
  const problem = designProblem(question);
  return unaryConflict(question, problem) ?? cycleConflict(problem) ?? (yield* setConflict(question, problem, purse));
}

function unaryConflict(question: DesignQuestion, problem: SequenceProblem): Conflict | null {
  const stuck = problem.joints.filter(({ allowed }) => allowed === 0);
  if (stuck.length > 0) {
    const reasons = stuck.map(({ id }) => {
      const joint = question.design.joints.find((each) => each.id === id)!;
      const why = question.solders.map((solder) => unfit(question, joint, solder.id) ?? '').filter((text) => text !== '');
      return `${id} can be made with none of the solders: ${why.join('; ')}`;
    });
    return { joints: stuck.map(({ id }) => id), rules: ['solders'], says: reasons.join('. ') };
  }
  const closed = problem.parts.find(({ id, closes }) => closes && !problem.joints.some(({ parts }) => parts.includes(id)));
  if (!closed) return null;
  const near = problem.made.filter(({ parts }) => parts.includes(closed.id)).map(({ id }) => id);
  return near.length === 0
    ? null
    : { joints: near, rules: [`hollow ${closed.id}`], says: `Hollow part ${closed.id} has no open vent: it cannot be heated` };
}

/** Joints that the order rules tie into a ring, joints of one heat counting as one. */
function cycleConflict(problem: SequenceProblem): Conflict | null {
  const group = problem.joints.map((_, j) => [...new Set([j, ...problem.together.filter((group) => group.includes(j)).flat()])]);
  for (const start of problem.joints.keys()) {
    const from = new Map<number, number>();
    const open = group[start]!.map((j) => ({ joint: j, via: -1 }));
    while (open.length > 0) {
      const { joint } = open.shift()!;
      for (const later of problem.after[joint]!) {
        for (const next of group[later]!) {
          if (from.has(next)) continue;
          from.set(next, joint);
          open.push({ joint: next, via: joint });
        }
      }
    }
    if (!from.has(start)) continue;
    const ring: number[] = [];
    for (let j = start; ring.length <= problem.joints.length;) {
      ring.unshift(j);
      j = from.get(j)!;
      if (j === start || group[start]!.includes(j)) break;
    }
    const ids = [...new Set(ring)].map((j) => problem.joints[j]!.id);
    const says = `The order rules go round in a ring: ${[...ids, ids[0]].join(' before ')}`;
    return { joints: ids, rules: problem.together.length > 0 ? ['before', 'sameHeat'] : ['before'], says };
  }
  return null;
}

/** The smallest set of joints that cannot be made even on its own, and the rules without which it could. */
function* setConflict(
  question: DesignQuestion,
  problem: SequenceProblem,
  purse: { workUnits: number },
): Generator<void, Conflict | null> {
  const count = problem.joints.length;
  const largest = count <= ALL_SETS_UP_TO ? count : SMALL_SET;
  const sets = Array.from({ length: count <= 16 ? 2 ** count - 1 : 0 }, (_, i) => i + 1)
    .filter((set) => countBits(set) <= largest)
    .sort((a, b) => countBits(a) - countBits(b) || a - b);
  for (const set of sets) {
    const made = yield* canBeMade(question, purse, bitsOf(set));
    if (made === null) return null;
    if (made) continue;
    const joints = bitsOf(set).map((j) => problem.joints[j]!.id);
    const rules = yield* neededRules(question, set, purse);
    const because = rules.length > 0 ? `, by ${rules.join(', ')}` : '';
    const kept = question.policy === 'stay_solid' ? 'keeps every earlier joint solid' : 'keeps every earlier joint from running';
    return {
      joints,
      rules,
      says: `No order of ${joints.join(', ')}, even on their own, ${kept} beyond the uncertainty${because}`,
    };
  }
  return null;
}

/** Rules are let go one by one for good, as long as the joints still cannot be made; those that cannot be let go are left. */
function* neededRules(question: DesignQuestion, only: number, purse: { workUnits: number }): Generator<void, string[]> {
  let rules: DesignRules = question.design.rules ?? {};
  const needed: string[] = [];
  for (const { name, without } of removableRules(rules)) {
    const looser = without(rules);
    const made = yield* canBeMade(withRules(question, looser), purse, bitsOf(only));
    if (made === false) rules = looser;
    else if (made) needed.push(name);
  }
  return needed;
}

export function withRules(question: DesignQuestion, rules: DesignRules): DesignQuestion {
  const design = { ...question.design, rules };
  return { ...question, design, given: { ...question.given, rules } };
}

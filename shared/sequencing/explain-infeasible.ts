/** Why no plan can be: what stands in the way, the least of it that can be named. */

import { aloneReasons } from './alone-reasons.ts';
import { designProblem, unfit, type DesignQuestion } from './design-problem.ts';
import { findConflict, type Posable } from './find-conflict.ts';
import { heatModelOracle } from './heat-model-oracle.ts';
import { looseRules } from './loose-rules.ts';
import { orderRing } from './order-ring.ts';
import type { Conflict } from './plan-search-request.ts';
import type { SequenceProblem } from './sequence-problem.ts';
import { remembering, type Purse } from './trial.ts';

/** @param purse what the explanation may spend; what is left of it stays in it */
export function* explainInfeasible(question: DesignQuestion, purse: Purse): Generator<void, Conflict | null> {
  const problem = designProblem(question);
  return unaryConflict(question, problem) ?? ringConflict(problem) ?? (yield* searchedConflict(question, problem, purse));
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

function ringConflict(problem: SequenceProblem): Conflict | null {
  const ring = orderRing(problem);
  if (!ring) return null;
  const ids = ring.joints.map((j) => problem.joints[j]!.id);
  const says = `The order rules go round in a ring: ${[...ids, ids[0]].join(' before ')}`;
  return { joints: ids, rules: ring.throughGroup ? ['before', 'sameHeat'] : ['before'], says };
}

/** The smallest set of joints found that cannot be made even on its own, and the rules without which it could. */
function* searchedConflict(question: DesignQuestion, problem: SequenceProblem, purse: Purse): Generator<void, Conflict | null> {
  const rules = looseRules(question);
  const found = yield* findConflict(posable(question, rules, purse), purse);
  if (!found) return null;
  const joints = found.joints.map((j) => problem.joints[j]!.id);
  const words = rules.filter(({ name }) => found.rules.includes(name)).map((rule) => rule.words);
  return { joints, rules: found.rules, says: saysOf(question, joints, words) };
}

/** Rules of order and number change no heat, so that what is known of heats stays known without them. */
function posable(question: DesignQuestion, rules: ReturnType<typeof looseRules>, purse: Purse): Posable {
  const whole = remembering(heatModelOracle(question), purse);
  return {
    rules: rules.map(({ name }) => name),
    pose(letGo) {
      const gone = rules.filter(({ name }) => letGo.has(name));
      const looser = gone.reduce((asked, { without }) => without(asked), question);
      const isSameFire = gone.every(({ key }) => key !== 'maxC' && key !== 'availableG');
      const oracle = isSameFire ? whole : remembering(heatModelOracle(looser), purse);
      return { problem: designProblem(looser), oracle };
    },
  };
}

function saysOf(question: DesignQuestion, joints: readonly string[], words: readonly string[]): string {
  const because = words.length > 0 ? `, as long as ${words.join(', and ')}` : '';
  if (joints.length === 1) {
    const joint = question.design.joints.find(({ id }) => id === joints[0])!;
    return `${joint.id} cannot be made even as the first of all, with any solder${because}. ${aloneReasons(question, joint)}`;
  }
  const kept = question.policy === 'stay_solid' ? 'keeps every earlier joint solid' : 'keeps every earlier joint from running';
  return `No order of ${joints.join(', ')}, even on their own, ${kept} beyond the uncertainty${because}`;
}

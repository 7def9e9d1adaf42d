import type { HeatCheck, PlanCheck } from '../../../shared/sequencing/plan-check-answer.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { guessesOfPlan, heatsLit } from './guesses.store.ts';
import type { PlanRow } from './plans.store.ts';

/** Somebody who only learns here: they say what they think first, and are told the answer after it. */
export function isLearner({ roles }: Pick<Actor, 'roles'>): boolean {
  return roles.has('student') && !roles.has('bench');
}

/** Earlier joints that a person has not guessed yet, by the heat; once a heat was lit its answer is no riddle any more. */
export function leftToGuess(db: Db, plan: Pick<PlanRow, 'id' | 'checkResult'>, personId: string): Map<number, string[]> {
  const guessed = new Set(guessesOfPlan(db, plan.id, personId).map(({ guess }) => `${guess.heat} ${guess.joint}`));
  const lit = heatsLit(db, plan.id);
  const left = (plan.checkResult?.heats ?? []).flatMap(({ heat, earlierJoints }): [number, string[]][] => {
    const joints = earlierJoints.map(({ joint }) => joint).filter((joint) => !guessed.has(`${heat} ${joint}`));
    return lit.has(heat) || joints.length === 0 ? [] : [[heat, joints]];
  });
  return new Map(left);
}

export type HeatShown = HeatCheck & { guessFirst: string[] };
export type PlanCheckShown = Omit<PlanCheck, 'verdict' | 'heats'> & { verdict: PlanCheck['verdict'] | null; heats: HeatShown[] };

/** What the check says of a heat, without what becomes of the joints that are yet to be guessed. */
export function heatShown(check: HeatCheck, left: readonly string[]): HeatShown {
  if (left.length === 0) return { ...check, guessFirst: [] };
  const { histories, ...rest } = check;
  return {
    ...rest,
    earlierJoints: [],
    ...(histories && { histories: histories.filter(({ of }) => of !== 'joint') }),
    guessFirst: [...left],
  };
}

/** A check as a person may see it: of a heat that they have yet to guess, nothing tells what its earlier joints do. */
export function checkShown(check: PlanCheck, left: ReadonlyMap<number, readonly string[]>): PlanCheckShown {
  const isHidden = ({ heat, rule }: PlanCheck['problems'][number]) => left.has(heat) && !ABOUT_ALL.has(rule);
  return {
    ...check,
    verdict: left.size === 0 ? check.verdict : null,
    heats: check.heats.map((heat) => heatShown(heat, left.get(heat.heat) ?? [])),
    problems: check.problems.filter((problem) => !isHidden(problem)),
  };
}

/** What is told at once, since it is of the metal and the flame, not of an earlier joint. */
const ABOUT_ALL: ReadonlySet<string> = new Set(['over_limit', 'does_not_flow']);

import type { z } from 'zod';
import { predictedState } from '../../../shared/thermal/predicted-state.ts';
import type { Db } from '../../platform/db/client.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { invalidFields, Problem, type FieldError } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { Platform } from '../../platform/platform.ts';
import { isLearner, leftToGuess } from './guess-first.ts';
import type { GuessBook, GuessesReply, NewGuesses } from './guesses.schema.ts';
import * as store from './guesses.store.ts';
import { getPlan, type PlanRow } from './plans.store.ts';

export type GuessService = ReturnType<typeof createGuessService>;

type Guesses = z.infer<typeof NewGuesses>;

export function createGuessService({ db, clock }: Platform) {
  return {
    /** A student says what becomes of every earlier joint of a heat, and is told what is predicted, beside it. */
    add(actor: Actor, planId: string, { heat, guesses }: Guesses): z.infer<typeof GuessesReply> {
      return db.transaction((tx) => {
        const plan = getPlan(tx, planId);
        if (!isLearner(actor))
          throw new Problem('forbidden', 'Cannot guess: that is for students; you are shown the answer at once');
        const left = holdToGuessable(tx, actor, plan, heat);
        const errors = guessErrors(guesses, left);
        if (errors.length > 0) throw invalidFields(errors);
        const by = writtenBy(actor, clock.now());
        const earlier = new Map(plan.checkResult!.heats[heat - 1]!.earlierJoints.map((each) => [each.joint, each]));
        const answers = guesses.map(({ joint, guess }) => {
          const check = earlier.get(joint)!;
          const predicted = predictedState(check);
          const at = by.at.toISOString();
          store.insertGuess(tx, { id: newId(by.at), personId: actor.personId, planId, heat, joint, guess, predicted, at });
          return { ...check, guess, predicted, isRight: guess === predicted };
        });
        writeJournal(tx, by, { what: 'guess', id: planId, after: { heat, guesses } });
        return { planId, heat, right: answers.filter(({ isRight }) => isRight).length, guesses: answers };
      });
    },

    /** What was guessed of a plan: a student's own, for a tutor everybody's. */
    list(actor: Actor, planId: string): z.infer<typeof GuessBook> {
      const plan = getPlan(db, planId);
      const own = isLearner(actor) ? actor.personId : undefined;
      const left = own === undefined ? new Map<number, string[]>() : leftToGuess(db, plan, own);
      return {
        guesses: store.guessesOfPlan(db, planId, own).map(({ guess: { id: _id, planId: _plan, ...row }, name }) => ({
          ...row,
          name,
          isRight: row.guess === row.predicted,
        })),
        guessFirst: [...left].map(([heat, joints]) => ({ heat, joints })),
      };
    },
  };
}

function refuse(says: string): never {
  throw new Problem('condition-not-met', `Cannot guess: ${says}`, { missing: [says] });
}

/** Joints that are to be guessed of a heat. @throws {Problem} where there is nothing to guess */
function holdToGuessable(tx: Db, { personId }: Actor, plan: PlanRow, heat: number): string[] {
  if (plan.state === 'replaced') refuse(`plan ${plan.number} is replaced by a newer one`);
  const check = plan.checkResult?.heats[heat - 1];
  if (!check)
    throw invalidFields([{ pointer: '/heat', detail: `Plan ${plan.number} has ${plan.body.heats.length} heats.`, given: heat }]);
  if (store.heatsLit(tx, plan.id).has(heat)) refuse(`heat ${heat} has been lit: what came of it is to be seen`);
  if (check.earlierJoints.length === 0) refuse(`no earlier joint lies in the fire of heat ${heat}`);
  const left = leftToGuess(tx, plan, personId).get(heat) ?? [];
  if (left.length === 0) refuse(`you have guessed every joint of heat ${heat}, and seen the answer`);
  return left;
}

/** All of them, each once, and no other: whoever sees the answer of one joint knows much of the next. */
function guessErrors(guesses: Guesses['guesses'], left: readonly string[]): FieldError[] {
  const given = guesses.map(({ joint }) => joint);
  const missing = left.filter((joint) => !given.includes(joint));
  return [
    ...given.flatMap((joint, index): FieldError[] => {
      const pointer = `/guesses/${index}/joint`;
      if (!left.includes(joint))
        return [{ pointer, detail: `There is nothing to guess of it: guess ${left.join(', ')}.`, given: joint }];
      return given.indexOf(joint) < index ? [{ pointer, detail: 'Guess each joint once.', given: joint }] : [];
    }),
    ...(missing.length > 0 ? [{ pointer: '/guesses', detail: `Guess ${missing.join(', ')} too: all are told at once.` }] : []),
  ];
}

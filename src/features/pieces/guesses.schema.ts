import { z } from 'zod';
import { PlanCheckReply } from '../calculations/index.ts';

const heat = z.number().int().min(1).max(80);
const state = z.enum(['solid', 'softens', 'runs']);
const joint = z.string().min(1).max(80);

export const NewGuesses = z.strictObject({
  heat: heat.describe('Its place in the plan, from 1: position of GET /heats.'),
  guesses: z
    .array(z.strictObject({ joint, guess: state }))
    .min(1)
    .max(80)
    .describe('Of every earlier joint in the fire: it stays solid, softens, or runs. Each is guessed once.'),
});

const earlier = PlanCheckReply.shape.heats.element.shape.earlierJoints.element;

export const GuessesReply = z.object({
  planId: z.string(),
  heat,
  right: z.number().int().describe('How many were guessed right.'),
  guesses: z.array(
    earlier
      .pick({ joint: true, peakC: true, uncertaintyK: true, solidMarginK: true, runMarginK: true, verdict: true, says: true })
      .extend({ guess: state, predicted: state, isRight: z.boolean() }),
  ),
});

export const GuessBook = z.object({
  guesses: z.array(
    z.object({
      personId: z.string(),
      name: z.string(),
      heat,
      joint: z.string(),
      guess: state,
      predicted: state.describe('When it was guessed.'),
      isRight: z.boolean(),
      at: z.string(),
    }),
  ),
  guessFirst: z
    .array(z.object({ heat, joints: z.array(z.string()) }))
    .describe('What the person asking has yet to guess; nothing for those who need not.'),
});

export const TutorsYes = z.strictObject({
  studentId: z.uuid().describe('Who may light the heat.'),
  yes: z.boolean().describe('false takes it back.'),
});

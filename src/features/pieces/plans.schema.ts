import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { moveFields } from '../../platform/http/moves.ts';
import {
  BenchSchema,
  PlanCheckReply,
  PlanEdits,
  PlanSchema,
  PlanSearchReply,
  SearchOptionsSchema,
  SolderSchema,
} from '../calculations/index.ts';

export const PlanParams = z.strictObject({ id: z.uuid() });

const PlanState = z.enum(LIFECYCLES.plan_version.states);

export const AskedBench = BenchSchema.extend({
  torch: BenchSchema.shape.torch.exactOptional(),
  torchId: z
    .uuid()
    .exactOptional()
    .describe('A torch of the book, as the person asking has calibrated it, in place of one described.'),
})
  .refine(({ torch, torchId }) => (torch === undefined) !== (torchId === undefined), {
    path: ['torch'],
    message: 'Name either a torch of the book (torchId) or describe one (torch).',
  })
  .refine(({ calibration, torchId }) => torchId === undefined || calibration === undefined, {
    path: ['calibration'],
    message: 'A torch of the book brings its own calibration.',
  });

export const NewPlan = z
  .strictObject({
    plan: PlanSchema.optional().describe('A plan by hand …'),
    search: SearchOptionsSchema.omit({ keep: true })
      .optional()
      .describe('… or the best that a search finds. What is made already needs no heats to keep: the true state says it.'),
    bench: AskedBench.optional().describe("The studio's own when absent."),
    solders: z.array(SolderSchema).min(1).max(40).optional().describe('Those on offer in the drawer when absent.'),
    after: z
      .number()
      .int()
      .min(0)
      .optional()
      .describe(
        'The number of the newest plan you know; 0: of none. Where there is a newer one, 412 says heat by heat in what the two differ. Whichever is newest when absent.',
      ),
  })
  .refine(({ plan, search }) => (plan === undefined) !== (search === undefined), {
    path: ['plan'],
    message: 'Send either a plan of your own (plan) or the options of a search (search).',
  });

export const PlanChange = z.strictObject({ plan: PlanSchema });

export const PlanWhatIf = z.strictObject({ edits: PlanEdits });

export const PlanMove = z.strictObject({ ...moveFields, to: PlanState });

const heatChecked = PlanCheckReply.shape.heats.element;

/** The check of a plan as a person may see it. */
const PlanCheckShown = PlanCheckReply.extend({
  verdict: PlanCheckReply.shape.verdict.nullable().describe('null while a student has yet to guess.'),
  heats: z.array(
    heatChecked.extend({
      guessFirst: z
        .array(z.string())
        .describe('Earlier joints of which a student says first what they will do; until then none of them is told.'),
    }),
  ),
});

export const PlanReply = z.object({
  id: z.string(),
  pieceId: z.string(),
  number: z.number().int(),
  state: PlanState,
  designNumber: z.number().int(),
  isCurrent: z.boolean().describe("The piece's design, and what is made of it, are still those the plan was made for."),
  origin: z.enum(['by_hand', 'found']),
  plan: PlanSchema,
  madeJoints: z
    .array(z.object({ joint: z.string(), solder: z.union([z.literal('unknown'), SolderSchema]), doubtful: z.boolean() }))
    .describe('Joints that existed when it was made, with the solder really in them.'),
  bench: BenchSchema.extend({
    torchId: z.string().exactOptional().describe('Of the book; torch and calibration are what they were then.'),
  }),
  solders: z.array(SolderSchema),
  check: PlanCheckShown.nullable(),
  search: PlanSearchReply.omit({ plan: true, check: true })
    .nullable()
    .describe('For a plan that was found: how good it is and why; for a student, once all is guessed.'),
  madeBy: z.string(),
  byStudent: z.boolean().describe('Made by a student: a tutor signs it before the first flame.'),
  signedBy: z.string().nullable(),
  short: z
    .array(z.object({ solder: z.string(), needG: z.number(), availableG: z.number(), says: z.string() }))
    .describe('Before it is in use: solder that it takes more of than was free when it was last checked.'),
  version: z.number().int(),
  createdAt: z.string(),
  allowedMoves: z.array(z.string()),
});

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
  })
  .refine(({ plan, search }) => (plan === undefined) !== (search === undefined), {
    path: ['plan'],
    message: 'Send either a plan of your own (plan) or the options of a search (search).',
  });

export const PlanWhatIf = z.strictObject({ edits: PlanEdits });

export const PlanMove = z.strictObject({ ...moveFields, to: PlanState });

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
  check: PlanCheckReply.nullable(),
  search: PlanSearchReply.omit({ plan: true, check: true })
    .nullable()
    .describe('For a plan that was found: how good it is and why.'),
  madeBy: z.string(),
  byStudent: z.boolean().describe('Made by a student: a tutor signs it before the first flame.'),
  signedBy: z.string().nullable(),
  version: z.number().int(),
  createdAt: z.string(),
  allowedMoves: z.array(z.string()),
});

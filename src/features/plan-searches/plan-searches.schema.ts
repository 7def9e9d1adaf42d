import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { BenchSchema, DesignSchema, PlanSearchReply, SearchOptionsSchema, SolderSchema } from '../calculations/index.ts';
import { AskedBench } from '../pieces/index.ts';

export const PlanSearchParams = z.strictObject({ id: z.uuid() });

const SearchState = z.enum(LIFECYCLES.plan_search.states);

const LaterOptions = SearchOptionsSchema.extend({
  timeMs: z
    .number()
    .int()
    .min(10)
    .max(600_000)
    .exactOptional()
    .describe('A safety net, from when it begins; 60 000 when absent.'),
});

export const NewPlanSearch = z
  .strictObject({
    pieceId: z.uuid().optional().describe('Looks for a plan for this piece, from the true state of its joints …'),
    design: DesignSchema.optional().describe('… or for a design of no piece.'),
    options: LaterOptions.default({}),
    bench: AskedBench.optional().describe("The studio's own when absent."),
    solders: z.array(SolderSchema).min(1).max(40).optional().describe('Those on offer in the drawer when absent.'),
  })
  .refine(({ pieceId, design }) => (pieceId === undefined) !== (design === undefined), {
    path: ['pieceId'],
    message: 'Name either a piece (pieceId) or send a design of no piece (design).',
  })
  .refine(({ pieceId, options }) => pieceId === undefined || options.keep === undefined, {
    path: ['options', 'keep'],
    message: 'What is made of a piece already needs no heats to keep: its true state says it.',
  });

export const PlanSearchMove = z.strictObject({ ...moveFields, to: SearchState });

export const PlanSearchQuery = PageQuery.extend({ pieceId: z.uuid().optional(), state: SearchState.optional() });

const Progress = z.object({
  workUnits: z.number().int(),
  workUnitsAllowed: z.number().int(),
  thermalRuns: z.number().int().describe('Heats simulated.'),
  elapsedMs: z.number().int().describe('Since it began.'),
  best: z
    .object({ policy: PlanSearchReply.shape.policy, levels: PlanSearchReply.shape.proof })
    .nullable()
    .describe('The best plan so far: what each level of the objective is worth, and what it could still be.'),
});

export const PlanSearchListed = z.object({
  id: z.string(),
  pieceId: z.string().nullable(),
  personId: z.string().describe('Who asked.'),
  state: SearchState,
  options: LaterOptions,
  progress: Progress.nullable(),
  outcome: PlanSearchReply.shape.outcome.nullable().describe('How good what it found is proven to be.'),
  failure: z.string().nullable().describe('Why there is no answer.'),
  planId: z.string().nullable().describe('The draft that was made of the answer.'),
  version: z.number().int(),
  createdAt: z.string(),
  startedAt: z.string().nullable(),
  endedAt: z.string().nullable().describe('A stopped one that was running answers a moment after it was stopped.'),
  allowedMoves: z.array(z.string()),
});

export const PlanSearchWhole = PlanSearchListed.extend({
  bench: BenchSchema.extend({ torchId: z.string().exactOptional() }),
  solders: z.array(SolderSchema),
  answer: PlanSearchReply.nullable(),
});

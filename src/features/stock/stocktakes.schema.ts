import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { Money } from '../../platform/http/money.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { reason } from './stock-fields.ts';

const StocktakeState = z.enum(LIFECYCLES.stocktake.states);

export const NewCounts = z.strictObject({
  counts: z
    .array(
      z.strictObject({
        lotId: z.uuid(),
        weighedG: z.number().min(0).max(6000).optional().describe('What the scale says, with whatever it lies in.'),
        tareG: z.number().min(0).max(1000).default(0).describe('What that weighs empty.'),
        reason: reason.optional().describe('Why it was not counted; or, once compared, how a difference came about.'),
      }),
    )
    .min(1, 'Say what was counted.')
    .max(200),
});

export const StocktakeMove = z.strictObject(moveFields);

const Count = z.object({
  lotId: z.string(),
  number: z.string(),
  of: z.enum(['solder', 'metal']),
  product: z.string(),
  owner: z.enum(['ours', 'client']),
  countedG: z.number().nullable(),
  countedAt: z.string().nullable(),
  countedBy: z.string().nullable(),
  reason: z.string().nullable(),
  compared: z
    .object({
      bookG: z.number(),
      differenceG: z.number(),
      toleranceG: z.number(),
      withinTolerance: z.boolean(),
      usedG: z.number().describe('Booked as used since the count before.'),
      trueUseG: z.number(),
      ratio: z.number().nullable().describe('True use ÷ booked use.'),
      value: Money.optional().describe('Of the difference, at the cost of the lot. For owner and desk.'),
    })
    .nullable()
    .describe('Null while it is counted: a count is blind.'),
});

export const TrimOffer = z.object({
  productId: z.string(),
  product: z.string(),
  usedG: z.number(),
  trueUseG: z.number(),
  ratio: z.number(),
  trimFraction: z.number().describe('In use.'),
  offeredTrimFraction: z.number(),
  says: z.string(),
  takeUp: z
    .object({ method: z.literal('PATCH'), path: z.string(), body: z.record(z.string(), z.record(z.string(), z.number())) })
    .describe('Sent by the owner as it is, with the version of the settings (If-Match), plans count on it from then on.'),
});

export const StocktakeReply = z.object({
  id: z.string(),
  number: z.string(),
  state: StocktakeState,
  stateReason: z.string().nullable(),
  closedAt: z.string().nullable().describe('Nothing is booked before this any more.'),
  counts: z.array(Count),
  left: z.number().int().describe('Lots that have neither a count nor a reason yet.'),
  trims: z
    .array(TrimOffer)
    .describe(
      'What the difference says of the trim that plans count on, where it is over tolerance; offered, never taken by itself.',
    ),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

export const StocktakeQuery = PageQuery.extend({ state: StocktakeState.optional() });

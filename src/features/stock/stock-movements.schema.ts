import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { Moment } from '../../platform/http/moment.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { reason } from './stock-fields.ts';

/** What is booked by hand. Receiving, holding and the solder of a heat are booked where they happen. */
export const HandKind = z.enum(['use', 'put_back', 'scrap', 'count_up', 'count_down', 'write_off']);

export const NewMovement = z.strictObject({
  kind: HandKind,
  lotId: z.uuid(),
  quantityG: fenced('stock_movement', 'quantityG', z.number().max(5000)).describe(
    'Above 0; the kind says whether it goes in or out.',
  ),
  reason,
  pieceId: z.uuid().optional().describe('The piece it was for.'),
  occurredAt: Moment.optional().describe('Now when absent.'),
});

export const Reversal = z.strictObject({ reason });

export const MovementReply = z.object({
  id: z.string(),
  kind: z.enum(['receive', 'use', 'put_back', 'scrap', 'count_up', 'count_down', 'write_off', 'hold', 'free', 'reverse']),
  productId: z.string(),
  lotId: z.string().nullable(),
  onHandG: z.number().describe('What it did to the lot: negative out of it.'),
  cost: z
    .string()
    .optional()
    .describe(
      'What it cost the stock, to six places; reports round. Oldest first or at the average, as the settings have it. For owner and desk.',
    ),
  heldG: z.number().describe('What it did to what is held for the piece.'),
  reason: z.string().nullable(),
  pieceId: z.string().nullable(),
  heatId: z.string().nullable(),
  reversesId: z.string().nullable(),
  reversedById: z.string().nullable(),
  occurredAt: z.string(),
  recordedAt: z.string(),
  personId: z.string().nullable(),
});

export const MovementQuery = PageQuery.extend({
  lotId: z.uuid().optional(),
  productId: z.uuid().optional(),
  pieceId: z.uuid().optional(),
});

import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { Moment } from '../../platform/http/moment.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText } from '../../platform/http/text.ts';
import { broughtNumber, reason, SinceLastCount, UnitPrice } from './stock-fields.ts';

/** Weighed, or measured by its length. */
const quantity = {
  lengthMm: z.number().positive().max(100_000).optional().describe('In place of the weight.'),
  widthMm: z.number().positive().max(1000).optional().describe('Of sheet, with its length.'),
};

export const NewMetalLot = z.strictObject({
  productId: z.uuid(),
  receivedOn: z.iso.date(),
  quantityG: fenced('lot', 'quantityG', z.number()).optional(),
  ...quantity,
  unitCost: UnitPrice.optional().describe('What was paid; the product’s price when absent. Nothing is paid for client metal.'),
  commissionId: z.uuid().optional().describe('Metal that the client left for this commission: kept apart, never ours in value.'),
  note: blockOfText(2000).nullable().default(null),
});

/** Metal that was there before the book, with the number that is written on it. */
export const BroughtMetalLot = NewMetalLot.omit({ lengthMm: true, widthMm: true, commissionId: true }).extend({
  number: broughtNumber,
  quantityG: fenced('lot', 'quantityG', z.number()),
});

export const MetalLotReply = z.object({
  id: z.string(),
  number: z.string(),
  version: z.number().int().describe('Goes up with every movement.'),
  productId: z.string(),
  productName: z.string(),
  metal: z.string(),
  commissionId: z.string().nullable(),
  owner: z.enum(['ours', 'client']),
  receivedOn: z.string(),
  receivedG: z.number(),
  onHandG: z.number(),
  lengthMm: z.number().nullable().describe('How long what is left is; null for sheet and grain.'),
  unitCost: UnitPrice.optional().describe('For owner and desk.'),
  note: z.string().nullable(),
  createdAt: z.string(),
});

export const MetalLotQuery = PageQuery.extend({ productId: z.uuid().optional(), commissionId: z.uuid().optional() });

/** issue: to a piece; put_back: clean metal back from it; scrap: into the jar of offcuts. */
export const MetalHandKind = z.enum(['issue', 'put_back', 'scrap', 'count_up', 'count_down', 'write_off']);

export const NewMetalMovement = z.strictObject({
  kind: MetalHandKind,
  lotId: z.uuid(),
  quantityG: fenced('stock_movement', 'quantityG', z.number().max(5000)).optional(),
  ...quantity,
  pieceId: z.uuid().optional().describe('Needed to issue and to put back.'),
  reason: reason.optional().describe('Needed for all but issue and put_back.'),
  occurredAt: Moment.optional().describe('Now when absent.'),
});

export const MetalMovementReply = z.object({
  id: z.string(),
  kind: z.enum(['receive', ...MetalHandKind.options, 'reverse']),
  lotId: z.string(),
  onHandG: z.number().describe('What it did to the lot: negative out of it.'),
  pieceId: z.string().nullable(),
  reason: z.string().nullable(),
  reversesId: z.string().nullable(),
  reversedById: z.string().nullable(),
  occurredAt: z.string(),
  recordedAt: z.string(),
  personId: z.string().nullable(),
});

export const MetalWeighingReply = z.object({
  movement: MetalMovementReply.nullable().describe('Null where the book had what was weighed.'),
  lot: MetalLotReply,
  sinceLastCount: SinceLastCount,
});

export const MetalMovementQuery = PageQuery.extend({ lotId: z.uuid().optional(), pieceId: z.uuid().optional() });

import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';
import {
  broughtNumber,
  CadmiumDocumentReply,
  NewCadmiumDocument,
  reason,
  SolderFormName,
  Standing,
  SinceLastCount,
  UnitPrice,
} from './stock-fields.ts';
import { MovementReply } from './stock-movements.schema.ts';
import { TrimOffer } from './stocktakes.schema.ts';

const LotState = z.enum(LIFECYCLES.lot.states);
/** Stamp, notch or dye: an unmarked strip is an unknown solder. */
const markOnMetal = lineOfText(6, 'Stamp, notch or dye it, and write here how.');

export const NewSolderLot = z.strictObject({
  productId: z.uuid(),
  receivedOn: z.iso.date(),
  quantityG: fenced('lot', 'quantityG', z.number()),
  unitCost: UnitPrice.describe('What was paid.'),
  markOnMetal: markOnMetal
    .nullable()
    .default(null)
    .describe('Stamp, notch or dye on the metal itself; sheet and wire without one are held back.'),
  useBy: z.iso.date().nullable().default(null).describe('Paste without one is given 12 months.'),
  cadmiumStanding: Standing.optional().describe("What its packet says; the product's own when absent."),
  document: NewCadmiumDocument.optional().describe('Needed to say no where the product does not.'),
});

/** A lot that was there before the book, with the number that is written on it. */
export const BroughtLot = NewSolderLot.extend({
  number: broughtNumber,
  heldBackBecause: reason.nullable().default(null),
});

export const SolderLotMove = z.strictObject({
  ...moveFields,
  markOnMetal: markOnMetal.optional().describe('When a held-back lot is opened: the mark it was given.'),
  document: NewCadmiumDocument.optional().describe('When a held-back lot is opened: what says that there is no cadmium in it.'),
  cadmiumStanding: z.enum(['yes', 'unknown']).optional().describe('When a lot is held back: whether the doubt is about cadmium.'),
});

export const SolderLotReply = z.object({
  id: z.string(),
  number: z.string(),
  productId: z.string(),
  productCode: z.string(),
  productName: z.string(),
  form: SolderFormName,
  receivedOn: z.string(),
  receivedG: z.number(),
  onHandG: z.number(),
  unitCost: UnitPrice.optional().describe('For owner and desk.'),
  markOnMetal: z.string().nullable(),
  useBy: z.string().nullable(),
  cadmiumStanding: Standing,
  cadmiumDocument: CadmiumDocumentReply.nullable(),
  state: LotState,
  stateReason: z.string().nullable(),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

/** Null: the scale and the book agree. */
export const WeighingReply = z.object({
  movement: MovementReply.nullable(),
  lot: SolderLotReply,
  sinceLastCount: SinceLastCount,
  trim: TrimOffer.nullable().describe('What that says of the trim plans count on, where a scale or a crumb does not explain it.'),
});

export const SolderLotQuery = PageQuery.extend({ productId: z.uuid().optional(), state: LotState.optional() });

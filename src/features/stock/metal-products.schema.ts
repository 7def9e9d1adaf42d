import { z } from 'zod';
import { LEAST_PACK_G } from '../../../shared/stock/order-quantity.ts';
import { fenced } from '../../platform/http/fences.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';
import { UnitPrice } from './stock-fields.ts';

const size = fenced('metal_product', 'sizeMm', z.number());
const width = z.number().positive().max(1000);

/** Sizes in mm; a gauge is converted by its name and kept as typed in "entered". */
const MetalFormBody = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('sheet'), thicknessMm: size }),
  z.strictObject({ kind: z.literal('strip'), widthMm: width, thicknessMm: size }),
  z.strictObject({ kind: z.literal('round_wire'), diameterMm: size }),
  z.strictObject({ kind: z.literal('square_wire'), sideMm: size }),
  z.strictObject({ kind: z.literal('half_round_wire'), widthMm: width, heightMm: size }),
  z.strictObject({ kind: z.literal('tube'), outsideDiameterMm: width, insideDiameterMm: width }),
  z.strictObject({ kind: z.literal('grain') }),
]);

const entered = z
  .record(z.string().max(100), z.string().max(40))
  .describe('What was typed where it was not mm or g, by pointer: { "/form/thicknessMm": "18 ga (Brown & Sharpe)" }.');

const fields = {
  name: lineOfText(120, 'Name it as in the list of the supplier.'),
  metal: lineOfText(60, 'Choose the metal.').describe('Id of a metal of GET /metals.'),
  form: MetalFormBody,
  entered,
  supplier: lineOfText(120, 'Say who sells it.'),
  packG: z.number().min(LEAST_PACK_G).max(5000).describe('Grams it is sold by.'),
  price: UnitPrice.describe('With the unit it was typed for.'),
};

export const NewMetalProduct = z.strictObject({ ...fields, entered: entered.default({}), packG: fields.packG.default(1) });

export const MetalProductChange = z
  .strictObject({ ...fields, active: z.boolean() })
  .omit({ metal: true, form: true })
  .partial();

export const MetalProductReply = z.object({
  id: z.string(),
  ...fields,
  packG: z.number().describe('One that was noted before may be smaller than is taken now.'),
  densityGPerCm3: z.number(),
  finenessFraction: z.number(),
  gPer100Mm: z.number().nullable().describe('What 100 mm of its length weigh; null for sheet and grain.'),
  price: UnitPrice.optional().describe('For owner and desk.'),
  active: z.boolean(),
  version: z.number().int(),
  createdAt: z.string(),
});

export const MetalProductQuery = PageQuery.extend({
  metal: z.string().max(60).optional(),
  active: z.enum(['true', 'false']).optional(),
});

/** Exactly one of the two; of sheet, how wide the piece is. */
export const Measure = z
  .strictObject({
    lengthMm: z.number().positive().max(100_000).optional(),
    massG: z.number().positive().max(5000).optional(),
    widthMm: width.optional().describe('Of sheet alone.'),
  })
  .refine(({ lengthMm, massG }) => (lengthMm === undefined) !== (massG === undefined), 'Send lengthMm or massG, one of them.');

export const MeasureReply = z.object({ lengthMm: z.number(), massG: z.number() });

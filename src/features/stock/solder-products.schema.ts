import { z } from 'zod';
import { LEAST_PACK_G } from '../../../shared/stock/order-quantity.ts';
import { fenced } from '../../platform/http/fences.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';
import { CadmiumDocumentReply, NewCadmiumDocument, SolderFormName, Standing, UnitPrice } from './stock-fields.ts';

const productFields = {
  code: z
    .string()
    .trim()
    .regex(/^[a-z0-9][a-z0-9_-]{0,39}$/, 'A code has 1 to 40 of a–z, 0–9, dash, underscore.')
    .describe('Its short name in plans and designs.'),
  name: lineOfText(60, 'Name it as on the packet.'),
  gradeWord: lineOfText(60, 'Name the grade as on the packet.'),
  solidusC: fenced('solder_product', 'solidusC', z.number()).describe(
    "Begins to melt: this product's own, never its grade word's.",
  ),
  liquidusC: fenced('solder_product', 'liquidusC', z.number()).describe('Flows.'),
  silverFraction: fenced('solder_product', 'silverFraction', z.number()).nullable(),
  cadmiumStanding: Standing.describe('Unknown counts as yes.'),
  leadOrTinStanding: Standing,
  form: SolderFormName,
  metalFraction: z.number().describe('By mass; of paste, from its data sheet. Anything else is 1.'),
  densityGPerCm3: fenced('solder_product', 'densityGPerCm3', z.number()).describe('Of the metal.'),
  smallestPieceG: fenced('solder_product', 'smallestPieceG', z.number()).describe(
    'The smallest chip that can really be cut, or dot that can be placed.',
  ),
  fluxFluoride: Standing.nullable().describe(
    'Of paste, from its data sheet: whether the flux in it holds fluoride. Unknown counts as yes; null: it brings no flux.',
  ),
  safetySheet: lineOfText(400, 'Add the supplier’s safety data sheet.').describe('Where its safety data sheet is.'),
  supplier: lineOfText(120, 'Say who sells it.'),
  packG: z.number().min(LEAST_PACK_G).max(5000).describe('Grams of a pack: it is ordered in whole packs.'),
  price: UnitPrice,
  leadWeeks: z.number().int().min(0).max(52).describe('Weeks from order to delivery.'),
};

/** Needed when a product that was unknown or had cadmium is said to have none. */
const document = NewCadmiumDocument.optional();

export const NewSolderProduct = z.strictObject({
  ...productFields,
  silverFraction: productFields.silverFraction.default(null),
  metalFraction: productFields.metalFraction.optional(),
  fluxFluoride: productFields.fluxFluoride.optional(),
});

export const SolderProductChange = z.strictObject({ ...productFields, active: z.boolean(), document }).partial();

export const SolderProductReply = z.object({
  id: z.string(),
  ...productFields,
  packG: z.number().describe('One that was noted before may be smaller than is taken now.'),
  price: UnitPrice.optional().describe('For owner and desk.'),
  cadmiumDocument: CadmiumDocumentReply.nullable(),
  active: z.boolean(),
  version: z.number().int(),
  createdAt: z.string(),
});

export const SolderProductQuery = PageQuery.extend({
  active: z.enum(['true', 'false']).optional(),
  form: SolderFormName.optional(),
  supplier: z.string().max(120).optional(),
  code: z.string().max(40).optional(),
});

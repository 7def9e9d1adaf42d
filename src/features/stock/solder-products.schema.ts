import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';
import { CadmiumDocumentReply, NewCadmiumDocument, SolderFormName, Standing, UnitPrice } from './stock-fields.ts';

const productFields = {
  /** Its short name in plans and designs. */
  code: z
    .string()
    .trim()
    .regex(/^[a-z0-9][a-z0-9_-]{0,39}$/, 'A code has 1 to 40 of a–z, 0–9, dash, underscore.'),
  name: lineOfText(60, 'Name it as on the packet.'),
  gradeWord: lineOfText(60, 'Name the grade as on the packet.'),
  /** Begins to melt: this product's own, never its grade word's. */
  solidusC: fenced('solder_product', 'solidusC', z.number()),
  /** Flows. */
  liquidusC: fenced('solder_product', 'liquidusC', z.number()),
  silverFraction: fenced('solder_product', 'silverFraction', z.number()).nullable(),
  /** Unknown counts as yes. */
  cadmiumStanding: Standing,
  leadOrTinStanding: Standing,
  form: SolderFormName,
  /** By mass; of paste, from its data sheet. Anything else is 1. */
  metalFraction: z.number(),
  /** Of the metal. */
  densityGPerCm3: fenced('solder_product', 'densityGPerCm3', z.number()),
  /** The smallest chip that can really be cut, or dot that can be placed. */
  smallestPieceG: fenced('solder_product', 'smallestPieceG', z.number()),
  safetySheet: lineOfText(400, 'Add the supplier’s safety data sheet.'),
  supplier: lineOfText(120, 'Say who sells it.'),
  packG: z.number().positive().max(5000),
  price: UnitPrice,
  leadWeeks: z.number().int().min(0).max(52),
};

/** Needed when a product that was unknown or had cadmium is said to have none. */
const document = NewCadmiumDocument.optional();

export const NewSolderProduct = z.strictObject({
  ...productFields,
  silverFraction: productFields.silverFraction.default(null),
  metalFraction: productFields.metalFraction.optional(),
});

export const SolderProductChange = z.strictObject({ ...productFields, active: z.boolean(), document }).partial();

export const SolderProductReply = z.object({
  id: z.string(),
  ...productFields,
  /** For owner and desk. */
  price: UnitPrice.optional(),
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

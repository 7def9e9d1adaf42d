import { z } from 'zod';
import { pricePerG } from '../../../shared/costing/inputs.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { lineOfText } from '../../platform/http/text.ts';

/** What the routes of the stock have in common. */

const decimal = z.string().regex(/^\d{1,9}(\.\d{1,6})?$/, 'Write the amount as a decimal, such as "1.85".');

/** Money of the studio's currency for a weight. */
export const UnitPrice = z.strictObject({ amount: decimal, per: z.enum(['g', 'dwt', 'ozt']) });

export const Standing = z.enum(['no', 'yes', 'unknown']);

export const SolderFormName = z.enum(['sheet', 'wire', 'paste', 'pallion', 'rod', 'powder']);

/** Only a supplier's sheet or a laboratory analysis says that there is no cadmium: never a bench test. */
export const NewCadmiumDocument = z.strictObject({
  kind: z.enum(['supplier_sheet', 'laboratory_analysis']),
  reference: lineOfText(200, 'Say where the document is kept, or its number.').describe(
    'Where the paper is kept, or its number.',
  ),
  datedOn: z.iso.date(),
});

export const CadmiumDocumentReply = NewCadmiumDocument.extend({ personId: z.string().describe('Who put it in.') });

export const reason = z.string().trim().min(3).max(200);

/** The number that is written on a lot which was there before the book. */
export const broughtNumber = z
  .string()
  .normalize('NFC')
  .trim()
  .regex(/^[\p{L}\p{N}][\p{L}\p{N} ./_-]{0,19}$/u, 'A number has 1 to 20 letters, digits, dots, dashes, slashes.');

export const StockParams = z.strictObject({ id: z.uuid() });

/** A unit price as it is kept: for a gram, to six places. */
export function keptPricePerG(price: z.infer<typeof UnitPrice>): string {
  return pricePerG('price', price).toDecimalPlaces(6).toFixed();
}

export function shownPrice(perG: string): z.infer<typeof UnitPrice> {
  return { amount: perG, per: 'g' };
}

/** The document as it is kept: with the person who put it in. */
export function documentBy({ personId }: Actor, document: z.infer<typeof NewCadmiumDocument> | undefined) {
  return document && { ...document, personId };
}

/** Prices of stock are for those who order and answer for it. */
export function seesPrices(actor: Actor): boolean {
  return actor.roles.has('desk');
}

export const Weighing = z.strictObject({ weighedG: z.number().min(0).max(5000).describe('What the scale says.'), reason });

export const SinceLastCount = z
  .object({
    usedG: z.number(),
    differenceG: z.number(),
    toleranceG: z.number(),
    withinTolerance: z.boolean(),
    trueUseG: z.number(),
    ratio: z.number().nullable(),
  })
  .describe('How use ran against what was booked, since it was last counted or weighed.');

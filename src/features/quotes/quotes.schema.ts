import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { Money } from '../../platform/http/money.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { PatchBody } from '../../platform/http/patch-body.ts';
import { EstimateReply } from '../calculations/index.ts';

export const QuoteParams = z.strictObject({ id: z.uuid() });

const QuoteState = z.enum(LIFECYCLES.quote_version.states);
const date = z.iso.date();
/** JSON Merge Patch of the request that the book makes: any number of it may be typed instead. */
const Overrides = PatchBody.describe(
  'JSON Merge Patch of the request that the book makes, as POST /calculations/estimate takes it: any number of it may be typed instead, such as {"policy": {"profit": {"markupFraction": 0.5}}}.',
);

export const EstimateAsked = z.strictObject({
  pieceId: z.uuid().optional().describe('One piece. Either this or commissionId.'),
  commissionId: z.uuid().optional().describe('All pieces of a commission, times its quantity where they are yet to be laid out.'),
  overrides: Overrides.default({}),
});

export const NewQuote = z.strictObject({
  commissionId: z.uuid(),
  overrides: Overrides.default({}),
  validUntil: date.optional().describe('By the settings when absent.'),
  from: z.uuid().optional().describe('A version of the same commission to start from, with what was typed for it.'),
  metalOnly: z
    .literal(true)
    .optional()
    .describe("With from: everything of that version stays, only the metal is priced again at today's fine price."),
});

/** Overrides are merged into those there are; null takes one out, so that the book's own number counts again. */
export const QuoteChange = z.strictObject({ overrides: Overrides, validUntil: date }).partial();

export const QuoteQuery = PageQuery.extend({ commissionId: z.uuid().optional(), state: QuoteState.optional() });

export const QuoteMove = z.strictObject({ ...moveFields, to: QuoteState });

const Profit = z.object({
  marginFraction: z.number().nullable().describe('Of all that is sold, after any discount.'),
  markupFraction: z.number().nullable(),
  ofMaking: z
    .object({ marginFraction: z.number(), markupFraction: z.number() })
    .describe('As it was typed, one of the two, and what that is as the other.'),
});
const Request = z
  .record(z.string(), z.unknown())
  .describe('As POST /calculations/estimate takes it: sent there, it gives the same amounts for ever.');

export const EstimateFromBook = z.object({
  request: Request,
  answer: EstimateReply,
  profit: Profit,
  assumes: z.array(z.string()).describe('What was taken for granted, in words.'),
});

/** The owner's page. */
const InsideReply = z.object({
  request: Request,
  answer: EstimateReply,
  overrides: z.record(z.string(), z.unknown()),
  profit: Profit,
  finePricePerG: z.string(),
  finePriceAt: z.string(),
  metalShareFraction: z.number().describe('Metal lines over the net.'),
});

export const QuoteReply = z.object({
  id: z.string(),
  commissionId: z.string(),
  commissionNumber: z.string(),
  number: z.number().int(),
  state: QuoteState,
  stateReason: z.string().nullable(),
  recipe: z.number().int(),
  net: Money,
  tax: Money,
  gross: Money,
  deposit: Money,
  validUntil: z.string(),
  placeOfSale: z.string().nullable(),
  sentAt: z.string().nullable(),
  answeredAt: z.string().nullable(),
  differenceFromAccepted: Money.nullable().describe(
    'Gross of this version less that of the accepted one; null while none is, and of the accepted one itself.',
  ),
  inside: InsideReply.nullable().describe('For the owner, of one version; null in lists and for others.'),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

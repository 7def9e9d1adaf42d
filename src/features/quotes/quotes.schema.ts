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
  'JSON Merge Patch of the request that the book makes, as POST /calculations/estimate takes it: any number of it may be typed instead, such as {"policy": {"profit": {"markupFraction": 0.5}}}. Of metals, solders, labour and passThrough one member may be patched by its name: {"labour": {"polishing": {"minutes": 20}}}.',
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

const ScrapKept = z
  .object({
    metals: z.array(z.object({ metal: z.string(), fineG: z.number(), worth: Money })),
    worth: Money,
  })
  .nullable()
  .describe(
    'Where scrap is kept and not credited: what it is worth at the usual shares caught and paid, the studio’s own, in no line of the price. Null: it is credited.',
  );

const Run = z
  .object({ pieces: z.number().int(), netEach: Money, grossEach: Money })
  .nullable()
  .describe('Of a small run, what one piece comes to, rounded: the price of the run is what counts. Null: no run.');

export const EstimateFromBook = z.object({
  request: Request,
  answer: EstimateReply,
  profit: Profit,
  scrapKept: ScrapKept,
  run: Run,
  fineness: z
    .object({
      standardFraction: z.number().nullable(),
      withoutSolderFraction: z.number(),
      wholeFraction: z.number().nullable(),
      leastSolderFraction: z.number().nullable(),
      finishedG: z.number(),
      finding: z.enum(['within', 'outside', 'unknown', 'no_rule']),
      says: z.array(z.string()),
    })
    .nullable()
    .describe('Of the whole with its solder, beside the rules of the place of sale (GET /place-rules).'),
  assumes: z.array(z.string()).describe('What was taken for granted, in words.'),
  asks: z.array(z.string()).describe('What looks odd and may be right.'),
});

export const WhatIf = z.strictObject({ overrides: Overrides });

const differences = z.array(
  z.object({
    group: z.string(),
    label: z.string(),
    beforeMinor: z.number().int().nullable(),
    afterMinor: z.number().int().nullable(),
    differenceMinor: z.number().int(),
  }),
);

const Differences = z.object({
  lines: differences.describe('What it costs; the differences add up to that of the base.'),
  sold: differences.describe('What it is sold by; the differences add up to that of the net.'),
  totals: z.array(
    z.object({
      total: z.string(),
      beforeMinor: z.number().int(),
      afterMinor: z.number().int(),
      differenceMinor: z.number().int(),
    }),
  ),
});

const changed = z
  .array(z.object({ input: z.string(), before: z.unknown(), after: z.unknown() }))
  .describe('Every input that is not alike, by its name; null where one of the two has none.');

const side = z.object({ totals: EstimateReply.shape.totals, profit: Profit });

export const WhatIfReply = z.object({ before: side, after: side, differences: Differences, changed, answer: EstimateReply });

export const ComparisonQuery = z.strictObject({ with: z.uuid().describe('Another version of the same commission.') });

const version = z.object({ id: z.string(), number: z.number().int(), state: z.string() });

export const ComparisonReply = z.object({
  before: version.describe('The earlier of the two.'),
  after: version,
  currency: z.string(),
  differences: Differences,
  changed,
});

/** The owner's page. */
const InsideReply = z.object({
  request: Request,
  answer: EstimateReply,
  overrides: z.record(z.string(), z.unknown()),
  profit: Profit,
  scrapKept: ScrapKept,
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
  run: Run,
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

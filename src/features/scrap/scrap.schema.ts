import { z } from 'zod';
import { fenced } from '../../platform/http/fences.ts';
import { Money } from '../../platform/http/money.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

const decimal = z.string().regex(/^\d{1,9}(\.\d{1,6})?$/, 'Write the amount as a decimal, such as "1.05".');
const fraction = z.number().min(0).max(1);

export const JarName = z.enum(['filings', 'offcuts', 'sweep', 'solder_bearing']);

const Advice = z.object({
  worth: Money.describe('What a refiner would pay for it, by the terms in the settings.'),
  fees: Money,
  timesFees: z.number().nullable(),
  send: z.boolean().describe('It is worth five times its fees.'),
  says: z.string(),
});

export const JarsReply = z.object({
  asOf: z.string(),
  jars: z.array(
    z.object({
      jar: JarName,
      expectedFineG: z.number().nullable().describe('Fine metal that the books expect in it; null: nothing is counted into it.'),
      expectedG: z.number().nullable(),
      pieces: z.number().int(),
      advice: Advice.nullable().describe('Null without the price of fine metal or the terms of the refiner in the settings.'),
    }),
  ),
});

export const NewScrapReturn = z.strictObject({
  jar: JarName,
  refiner: lineOfText(120, 'Say who it goes to.'),
  weighedG: fenced('lot', 'quantityG', z.number()).describe('The jar without its tare.'),
  sentOn: z.iso.date(),
});

export const Settlement = z.strictObject({
  settledOn: z.iso.date(),
  meltLossFraction: fraction.describe('What was lost in melting, of the weight of the jar.'),
  assayFraction: fraction.describe('Fine metal in the bar.'),
  payFraction: fraction.describe('How much of the fine metal is paid.'),
  finePricePerG: decimal,
  feeFixed: decimal,
  feePerG: decimal.describe('Asked for each gram of the jar.'),
});

export const ScrapReversal = z.strictObject({ reason: z.string().trim().min(3).max(200) });

export const ScrapReturnReply = z.object({
  id: z.string(),
  number: z.string(),
  jar: JarName,
  refiner: z.string(),
  weighedG: z.number(),
  expectedFineG: z.number().nullable(),
  pieces: z.number().int(),
  sentOn: z.string(),
  settlement: Settlement.extend({
    barG: z.number(),
    fineG: z.number(),
    paid: Money,
    fees: Money,
    credit: Money,
    recoveredFraction: z.number().nullable().describe('Fine metal found ÷ expected.'),
  }).nullable(),
  takenBack: z
    .object({ reason: z.string(), at: z.string() })
    .nullable()
    .describe('It was never sent: what the books expected in it is in its jar.'),
  version: z.number().int(),
  createdAt: z.string(),
});

export const ScrapReturnQuery = PageQuery.extend({ jar: JarName.optional() });
export const ScrapParams = z.strictObject({ id: z.uuid() });

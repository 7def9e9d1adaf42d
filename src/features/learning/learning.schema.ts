import { z } from 'zod';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

const record = z.object({
  commissionId: z.string(),
  number: z.string(),
  at: z.string(),
  estimateMinutes: z.number().describe('Before any factor.'),
  actualMinutes: z.number().describe('Agreed times, less what incidents took.'),
  ratio: z.number(),
});

const factor = {
  operation: z.string(),
  personId: z.string().nullable().describe('Whose records; null: everybody’s.'),
  pieces: z.number().int(),
  usualRatio: z.number().describe('The median of minutes taken to minutes guessed.'),
  prior: z.number(),
  priorFrom: z.string(),
  factor: z.number().describe('Times a guessed minute.'),
  shrunkSpread: z.number().describe('Of the logarithm; eight in ten is × exp(0.8416 × this).'),
  says: z.string(),
};

export const OfferReply = z.object({
  ...factor,
  records: z.array(record),
  inUse: z.object({ factor: z.number(), acceptedAt: z.string() }).nullable().describe('What was accepted last.'),
});

export const OffersReply = z.object({ items: z.array(OfferReply) });

export const NewLearnedFactor = z.strictObject({
  operation: lineOfText(60).describe('One that is offered: the factor of now is accepted, as it is offered now.'),
  personId: z.uuid().nullable().default(null),
  factor: z.number().positive().describe('The factor that was shown: refused when it is another by now.'),
});

export const FactorQuery = PageQuery.extend({ operation: z.string().max(60).optional() });

export const FactorReply = z.object({
  id: z.string(),
  operation: z.string(),
  personId: z.string().nullable(),
  factor: z.number(),
  spread: z.number(),
  pieces: z.number().int(),
  says: z.string(),
  records: z.array(z.object({ commissionId: z.string(), estimateMinutes: z.number(), actualMinutes: z.number() })),
  acceptedBy: z.string(),
  createdAt: z.string(),
});

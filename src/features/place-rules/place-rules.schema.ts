import { z } from 'zod';
import { Country } from '../../platform/http/country.ts';
import { fenced } from '../../platform/http/fences.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

export const PlaceParams = z.strictObject({ id: Country });

export const PlaceQuery = PageQuery.extend({ cursor: Country.optional() });

const tolerance = z.number().min(0).max(0.05);

const rules = {
  office: lineOfText(120).nullable().default(null).describe('The office that assays and marks, as it is named on a packet.'),
  source: lineOfText(400, 'Say where these rules are from: the office, a law, a page.').describe('Where it was read, and when.'),
  markOverG: fenced('place_rules', 'markOverG', z.number()).nullable().default(null).describe('Heavier silver needs a mark.'),
  leastSolderFinenessFraction: fenced('place_rules', 'leastSolderFinenessFraction', z.number())
    .nullable()
    .default(null)
    .describe('Every solder in a piece is at least so fine.'),
  toleranceWithoutSolderFraction: tolerance
    .nullable()
    .default(null)
    .describe('How far the parts together may be below their standard; 0: not at all. Null: not asked.'),
  toleranceWithSolderFraction: tolerance.nullable().default(null).describe('The same of the whole with its solder.'),
  addedMetalG: fenced('place_rules', 'addedMetalG', z.number())
    .nullable()
    .default(null)
    .describe('Most that may be added to a piece that is marked, before the office has to be asked.'),
  addedMetalFraction: fenced('place_rules', 'addedMetalFraction', z.number()).nullable().default(null),
  taxRateFraction: fenced('place_rules', 'taxRateFraction', z.number())
    .nullable()
    .default(null)
    .describe('Of what is sold there, in place of the rate in the settings.'),
  keepYears: fenced('place_rules', 'keepYears', z.number().int()).nullable().default(null).describe('How long papers are kept.'),
};

export const PlaceRulesBody = z.strictObject(rules);

export const PlaceRulesReply = z.object({ place: z.string(), ...rules, version: z.number().int(), updatedAt: z.string() });

export const AddedMetalQuery = z.strictObject({
  pieceG: z.coerce.number().min(0.01).max(10_000).describe('What the piece weighs as it is.'),
  addedG: z.coerce.number().min(0).max(10_000),
});

export const AddedMetalReply = z.object({
  finding: z.enum(['within', 'over', 'no_rule']),
  addedFraction: z.number().describe('Of the piece as it is.'),
  says: z.array(z.string()),
});

export const PublishedReply = z.object({
  items: z.array(
    z.object({
      place: z.string(),
      field: z.string(),
      value: z.number(),
      says: z.string(),
      source: z.string(),
      standing: z.enum(['found', 'memory']).describe('memory: to be looked up before anyone relies on it.'),
    }),
  ),
  about: z.string(),
});

import { z } from 'zod';
import { METAL_TABLE } from '../../../shared/materials/metal-table.ts';
import { fenced } from '../../platform/http/fences.ts';
import { lineOfText } from '../../platform/http/text.ts';

const tableIds = Object.keys(METAL_TABLE) as (keyof typeof METAL_TABLE)[];

const Source = lineOfText(200, 'Say who says so: a data sheet, or a trial of your own.').describe(
  'Who says so: a data sheet, a trial of your own.',
);
const said = (value: z.ZodNumber) => z.strictObject({ value, source: Source });

const Kind = z
  .enum(['silver', 'gold', 'platinum', 'base'])
  .describe('What it is in the main. A base metal asks for the caution on fume.');

const fields = {
  name: lineOfText(60, 'Name the metal.'),
  kind: Kind,
  solidusC: said(fenced('alloy', 'solidusC', z.number())).describe('Begins to melt, wrought and annealed.'),
  liquidusC: said(fenced('alloy', 'liquidusC', z.number())).describe('Wholly liquid.'),
  densityGPerCm3: said(fenced('alloy', 'densityGPerCm3', z.number())),
};
const spared = {
  finenessFraction: said(fenced('alloy', 'finenessFraction', z.number())).describe(
    'Share of silver by mass: 0.95 for 950. Needed for a silver; of any other metal 0 when absent.',
  ),
  conductivityWPerMK: said(z.number().min(5).max(450)),
  specificHeatJPerKgK: said(z.number().min(100).max(1200)),
  emissivityFraction: said(z.number().min(0.01).max(1)).describe('Of the surface as it is at the hearth.'),
  like: z
    .enum(tableIds)
    .describe('The metal of the table whose value stands where none is typed. Of a silver the nearest in fineness when absent.'),
};

export const NewMetal = z.strictObject({
  id: z
    .string()
    .trim()
    .regex(/^[a-z0-9][a-z0-9_-]{0,39}$/, 'An id has 1 to 40 of a–z, 0–9, dash, underscore.')
    .describe('Its short name, such as our-950, by which designs, pieces and prices name it. It stays.'),
  ...fields,
  finenessFraction: spared.finenessFraction.optional(),
  conductivityWPerMK: spared.conductivityWPerMK.optional(),
  specificHeatJPerKgK: spared.specificHeatJPerKgK.optional(),
  emissivityFraction: spared.emissivityFraction.optional(),
  like: spared.like.optional(),
});

/** A value is changed together with its source; null leaves it to the table again. */
export const MetalChange = z
  .strictObject({
    ...fields,
    finenessFraction: spared.finenessFraction.nullable(),
    conductivityWPerMK: spared.conductivityWPerMK.nullable(),
    specificHeatJPerKgK: spared.specificHeatJPerKgK.nullable(),
    emissivityFraction: spared.emissivityFraction.nullable(),
    like: spared.like.nullable(),
    active: z.boolean().describe('False retires it: nothing new may name it. True brings it back.'),
  })
  .partial();

export const MetalParams = z.strictObject({ id: z.string().min(1).max(60) });

const Standing = z
  .enum(['found', 'memory', 'derived', 'judgement', 'own', 'assumed'])
  .describe(
    'found in a copy of the source, from memory, derived from other values, chosen for the model; own: the studio says so; assumed: nobody says so, another metal’s value stands.',
  );
const sourced = <Value extends z.ZodType>(value: Value) => z.object({ value, source: z.string(), standing: Standing });
const number = sourced(z.number());
const line = sourced(z.object({ at20C: z.number(), perK: z.number() })).describe('at20C + perK · (T − 20), T in °C.');

const values = {
  name: z.string(),
  kind: Kind,
  densityGPerCm3: number,
  finenessFraction: number,
  solidusC: number,
  castSolidusC: number,
  liquidusC: number,
  conductivityWPerMK: line,
  specificHeatJPerKgK: line,
  emissivityFraction: number,
};

const TableMetalReply = z.object({ id: z.string(), from: z.literal('table'), ...values });

export const OwnMetalReply = z
  .object({
    id: z.string(),
    from: z.literal('studio'),
    ...values,
    like: z.string().nullable().describe('The metal of the table whose values stand where none is typed.'),
    active: z.boolean(),
    version: z.number().int(),
    createdAt: z.string(),
  })
  .register(z.globalRegistry, { id: 'OwnMetal' });

export const MetalReply = z.discriminatedUnion('from', [TableMetalReply, OwnMetalReply]);

import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

const BathState = z.enum(LIFECYCLES.pickle_bath.states);

const bathFields = {
  acid: z.enum(['bisulphate', 'citric', 'sulphuric', 'other']).describe('Of any other only the copper is counted.'),
  volumeL: fenced('pickle_bath', 'volumeL', z.number()),
  strengthGPerL: fenced('pickle_bath', 'strengthGPerL', z.number()),
  copperLimitGPerL: fenced('pickle_bath', 'copperLimitGPerL', z.number()),
};

export const NewBath = z
  .strictObject({ ...bathFields, openedOn: z.iso.date() })
  .partial()
  .describe('As the settings have it where it says nothing; opened today.');

export const BathMove = z.strictObject({
  ...moveFields,
  ironOut: z.boolean().optional().describe('From fouled back to in_use.'),
  piecesChecked: z.boolean().optional().describe('From fouled back to in_use: what was in it was looked at for copper blush.'),
  blushes: z.number().int().min(0).max(500).optional().describe('From fouled back to in_use: how many pieces blushed.'),
  ph: z.number().min(0).max(14).optional().describe('To neutralised: measured, 7 to 9.'),
  goneTo: lineOfText(200, 'Say where it went.').optional().describe('To gone: where it went, by the rule of the place.'),
});

const Clock = z.object({
  usedG: z.number(),
  limitG: z.number(),
  fraction: z.number().describe('1: it is spent.'),
});

export const BathReply = z.object({
  id: z.string(),
  number: z.string(),
  acid: z.string(),
  volumeL: z.number(),
  strengthGPerL: z.number(),
  copperLimitGPerL: z.number(),
  openedOn: z.string(),
  state: BathState,
  stateReason: z.string().nullable(),
  dips: z.number().int(),
  copper: Clock.describe('Counted from the oxide of every heat that went in.'),
  copperGPerL: z.number(),
  acidUsed: Clock.nullable().describe('Of the share that is usable; null for an acid that is not known.'),
  fraction: z.number().describe('The larger of the two: 0.8 is tiring, 1 is spent.'),
  says: z.string(),
  cautions: z.array(z.object({ id: z.string(), words: z.string(), tick: z.string() })).describe('To be read at it as it stands.'),
  blushes: z.number().int(),
  ph: z.number().nullable(),
  neutralisedOn: z.string().nullable(),
  goneTo: z.string().nullable(),
  goneOn: z.string().nullable(),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

export const DipReply = z.object({
  id: z.string(),
  heatId: z.string(),
  areaCm2: z.number(),
  copperG: z.number(),
  acidG: z.number().nullable(),
  bathC: z.number().nullable(),
  occurredAt: z.string(),
  personId: z.string().nullable(),
  pieceId: z.string(),
  heatNumber: z.number().int().describe('Of its piece.'),
  takenBack: z
    .object({ reason: z.string(), at: z.string() })
    .nullable()
    .describe('It was counted in the wrong bath, or never was; it counts no more.'),
});

export const DipReversal = z.strictObject({ reason: lineOfText(200, 'Say why.') });

export const BathQuery = PageQuery.extend({ state: BathState.optional() });
export const BathParams = z.strictObject({ id: z.uuid() });

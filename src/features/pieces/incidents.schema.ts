import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { Moment } from '../../platform/http/moment.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { blockOfText, lineOfText } from '../../platform/http/text.ts';
import { PhotoListed } from './photos-of.ts';

export const IncidentParams = z.strictObject({ id: z.uuid() });

const IncidentState = z.enum(LIFECYCLES.incident.states);

export const IncidentKindSchema = z.enum([
  'reflow',
  'no_flow',
  'overheated',
  'fire_stain',
  'pit',
  'shifted',
  'cracked_stone',
  'copper_blush',
  'burst',
  'lost',
  'mark_refused',
  'burn_or_injury',
]);
export type IncidentKind = z.infer<typeof IncidentKindSchema>;

const LikelyCause = z.enum([
  'dirty',
  'gap',
  'too_little_flux',
  'flame_too_small',
  'flame_on_solder',
  'overheated',
  'no_protection',
  'protection_slipped',
  'wrong_grade',
  'stock_mislabelled',
  'unknown',
]);

const found = {
  likelyCause: LikelyCause,
  minutesLost: fenced('incident', 'minutesLost', z.number().int()),
  solderUsedG: fenced('incident', 'solderUsedG', z.number()),
  note: blockOfText(2000),
};

export const NewIncident = z.strictObject({
  pieceId: z.uuid(),
  heatId: z.uuid().optional(),
  jointId: z.string().min(1).max(80).optional(),
  kind: IncidentKindSchema,
  seenAt: Moment.optional(),
  likelyCause: found.likelyCause.optional(),
  minutesLost: found.minutesLost.optional(),
  solderUsedG: found.solderUsedG.optional(),
  note: found.note.optional(),
});

export const IncidentChange = z
  .strictObject({
    likelyCause: found.likelyCause.nullable(),
    minutesLost: found.minutesLost.nullable(),
    solderUsedG: found.solderUsedG.nullable(),
    note: found.note.nullable(),
  })
  .partial();

export const IncidentQuery = PageQuery.extend({ pieceId: z.uuid().optional(), state: IncidentState.optional() });

export const IncidentMove = z.strictObject({
  ...moveFields,
  to: IncidentState,
  likelyCause: found.likelyCause.optional().describe('With the move to explained, where it was not noted before.'),
  minutesLost: found.minutesLost.optional().describe('With the move to put right, where they were not noted before.'),
  solderUsedG: found.solderUsedG.optional(),
  how: lineOfText(400).optional().describe('With the move to put right: how.'),
  clientTold: z.boolean().optional().describe('With the move to left as it is.'),
});

export const IncidentReply = z.object({
  id: z.string(),
  pieceId: z.string(),
  heatId: z.string().nullable(),
  jointId: z.string().nullable(),
  kind: IncidentKindSchema,
  likelyCause: LikelyCause.nullable(),
  note: z.string().nullable(),
  state: IncidentState,
  howEnded: z.string().nullable(),
  clientTold: z.boolean().nullable(),
  minutesLost: z.number().int().nullable(),
  solderUsedG: z.number().nullable(),
  seenBy: z.string(),
  seenAt: z.string(),
  version: z.number().int(),
  createdAt: z.string(),
  photos: z.array(PhotoListed),
  allowedMoves: z.array(z.string()),
});

import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { fenced } from '../../platform/http/fences.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';
import { HistoryReply, JointReply } from './joints.schema.ts';
import { PhotoListed } from './photos-of.ts';

export const PieceParams = z.strictObject({ id: z.uuid() });

const PieceState = z.enum(LIFECYCLES.piece.states);
const Whereabouts = z.enum(['bench', 'safe', 'away', 'with_client', 'unknown']);
const title = lineOfText(120, 'Give the piece a short title.');

export const NewPiece = z.strictObject({
  commissionId: z.uuid(),
  title,
  metal: z
    .string()
    .min(1)
    .max(60)
    .describe("The metal it is mainly made of, by its id in GET /metals: the table's or the studio's own."),
  serial: fenced('piece', 'serial', z.number().int())
    .optional()
    .describe("Which of the commission's pieces it is; the next one when absent."),
});

export const PieceChange = z.strictObject({ title, whereabouts: Whereabouts.describe('"unknown" opens an incident.') }).partial();

export const PieceQuery = PageQuery.extend({ commissionId: z.uuid().optional(), state: PieceState.optional() });

/** What a second pair of eyes goes over before a piece is called checked. */
export const LOOK_OVER = ['joints', 'surface', 'edges', 'sizes', 'fittings'] as const;

export const PieceMove = z.strictObject({
  ...moveFields,
  to: PieceState,
  metalIssuedG: fenced('piece', 'weighedG', z.number()).optional().describe('With the move to cut.'),
  metalReturnedG: z.number().min(0).max(10_000).optional().describe('With the move to scrapped: metal weighed into scrap.'),
  remake: z
    .boolean()
    .optional()
    .describe('With the move to scrapped: whether the piece is made again; the new piece is laid out with the same design.'),
  weighedG: fenced('piece', 'weighedG', z.number()).optional().describe('With the move to ready, and back from away.'),
  photoTaken: z
    .boolean()
    .optional()
    .describe(
      'With the move to ready, where the book has no photo of the piece since it came to be finished: one is kept elsewhere.',
    ),
  labelled: z.boolean().optional().describe('With the move to ready.'),
  lookedOver: z
    .array(z.enum(LOOK_OVER))
    .max(LOOK_OVER.length)
    .optional()
    .describe('With the move to checked, and back from away: what was looked at.'),
  sentTo: lineOfText(120).optional().describe('With the move to away: the office or the hand it goes to.'),
});

export const PieceSummary = z.object({
  id: z.string(),
  number: z.string(),
  commissionId: z.string(),
  serial: z.number().int(),
  title: z.string(),
  metal: z.string(),
  state: PieceState,
  stateReason: z.string().nullable(),
  stateBeforeAside: z.string().nullable().describe('While set aside: the one state it goes back to.'),
  whereabouts: Whereabouts,
  metalIssuedG: z.number().nullable(),
  metalReturnedG: z.number().nullable(),
  weighedG: z.number().nullable(),
  remakeOfPieceId: z.string().nullable().describe('The scrapped piece that this one is made in place of.'),
  version: z.number().int(),
  createdAt: z.string(),
  allowedMoves: z.array(z.string()),
});

export const PieceReply = PieceSummary.extend({
  computedG: z.number().nullable().describe('Parts alone, from the design; null without one.'),
  designNumber: z.number().int().nullable(),
  planInUse: z.object({ id: z.string(), number: z.number().int() }).nullable(),
  remakePieceId: z.string().nullable().describe('The piece made in place of this one.'),
  joints: z.array(JointReply),
  solderHistory: z.array(HistoryReply).describe('Every solder that has run in this piece, oldest first, with what came of it.'),
  photos: z.array(PhotoListed),
});

import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { listMetals } from '../../../shared/materials/metal.ts';
import { fenced } from '../../platform/http/fences.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';
import { HistoryReply, JointReply } from './joints.schema.ts';

export const PieceParams = z.strictObject({ id: z.uuid() });

const PieceState = z.enum(LIFECYCLES.piece.states);
const Whereabouts = z.enum(['bench', 'safe', 'away', 'with_client', 'unknown']);
const metals = listMetals().map(({ id }) => id);
const title = lineOfText(120, 'Give the piece a short title.');

export const NewPiece = z.strictObject({
  commissionId: z.uuid(),
  title,
  /** The metal it is mainly made of, by its id in the table of metals. */
  metal: z.string().refine((id) => metals.includes(id), `Choose the metal the piece is mainly made of: ${metals.join(', ')}.`),
  /** Which of the commission's pieces it is; the next one when absent. */
  serial: fenced('piece', 'serial', z.number().int()).optional(),
});

export const PieceChange = z.strictObject({ title, whereabouts: Whereabouts }).partial();

export const PieceQuery = PageQuery.extend({ commissionId: z.uuid().optional(), state: PieceState.optional() });

/** What a second pair of eyes goes over before a piece is called checked. */
export const LOOK_OVER = ['joints', 'surface', 'edges', 'sizes', 'fittings'] as const;

export const PieceMove = z.strictObject({
  ...moveFields,
  to: PieceState,
  /** With the move to cut. */
  metalIssuedG: fenced('piece', 'weighedG', z.number()).optional(),
  /** With the move to scrapped: metal weighed into scrap. */
  metalReturnedG: z.number().min(0).max(10_000).optional(),
  /** With the move to scrapped: whether the piece is made again; the new piece is laid out with the same design. */
  remake: z.boolean().optional(),
  /** With the move to ready, and back from away. */
  weighedG: fenced('piece', 'weighedG', z.number()).optional(),
  photoTaken: z.boolean().optional(),
  labelled: z.boolean().optional(),
  /** With the move to checked, and back from away: what was looked at. */
  lookedOver: z.array(z.enum(LOOK_OVER)).max(LOOK_OVER.length).optional(),
  /** With the move to away: the office or the hand it goes to. */
  sentTo: lineOfText(120).optional(),
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
  /** While set aside: the one state it goes back to. */
  stateBeforeAside: z.string().nullable(),
  whereabouts: Whereabouts,
  metalIssuedG: z.number().nullable(),
  metalReturnedG: z.number().nullable(),
  weighedG: z.number().nullable(),
  /** The scrapped piece that this one is made in place of. */
  remakeOfPieceId: z.string().nullable(),
  version: z.number().int(),
  createdAt: z.string(),
  allowedMoves: z.array(z.string()),
});

export const PieceReply = PieceSummary.extend({
  /** Parts alone, from the design; null without one. */
  computedG: z.number().nullable(),
  designNumber: z.number().int().nullable(),
  planInUse: z.object({ id: z.string(), number: z.number().int() }).nullable(),
  /** The piece made in place of this one. */
  remakePieceId: z.string().nullable(),
  joints: z.array(JointReply),
  /** Every solder that has run in this piece, oldest first, with what came of it. */
  solderHistory: z.array(HistoryReply),
});

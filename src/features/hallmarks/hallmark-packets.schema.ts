import { z } from 'zod';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { Country } from '../../platform/http/country.ts';
import { fenced } from '../../platform/http/fences.ts';
import { Money, moneyGiven } from '../../platform/http/money.ts';
import { moveFields } from '../../platform/http/moves.ts';
import { PageQuery } from '../../platform/http/paging.ts';
import { lineOfText } from '../../platform/http/text.ts';

export const PacketParams = z.strictObject({ id: z.uuid() });

const PacketState = z.enum(LIFECYCLES.hallmark_packet.states);
const weighedG = fenced('piece', 'weighedG', z.number());
const amount = moneyGiven(fenced('hallmark_packet', 'feeMinor', z.number().int()));

const PackedPiece = z.strictObject({
  pieceId: z.uuid(),
  weighedG: weighedG.nullable().default(null).describe('On the scale as it goes; needed before the packet is sent.'),
  parts: lineOfText(200, 'List its parts.').describe(
    'What it is made of, as the office wants it listed: "ring and bezel, two parts".',
  ),
  marks: lineOfText(200)
    .nullable()
    .default(null)
    .describe('Which marks are asked: "maker, fineness, office; part mark on the bail". Null: that of its fineness.'),
  partMarks: amount.nullable().default(null).describe('What marks on its single parts cost.'),
});

const fields = {
  place: Country.describe('Whose rules it goes by (GET /place-rules).'),
  office: lineOfText(120, 'Name the office.'),
  fee: amount.describe('What the office asks for the packet.'),
  post: amount.describe('Post both ways and insurance.'),
  perArticle: amount.nullable().default(null),
  articles: fenced('hallmark_packet', 'articles', z.number().int())
    .nullable()
    .default(null)
    .describe('All articles in it, where there are more than the pieces of this book. Null: as many as pieces.'),
  pieces: z.array(PackedPiece).min(1, 'Put a piece in.').max(200),
};

export const NewPacket = z.strictObject(fields);

export const PacketChange = z
  .strictObject({ ...fields, perArticle: amount.nullable(), articles: fields.articles.unwrap() })
  .partial()
  .describe('Pieces are given whole: those that are left out come out of the packet.');

export const PacketQuery = PageQuery.extend({ state: PacketState.optional(), pieceId: z.uuid().optional() });

export const PacketMove = z.strictObject({
  ...moveFields,
  to: PacketState,
  override: z
    .literal(true)
    .optional()
    .describe('With the move to sent: past what the rules of the place say; the owner, with a reason.'),
  refusedPieceIds: z
    .array(z.uuid())
    .min(1)
    .max(200)
    .optional()
    .describe('With the move to refused: which pieces; all of them when absent.'),
  back: z
    .array(z.strictObject({ pieceId: z.uuid(), weighedG }))
    .max(200)
    .optional()
    .describe('With the move to back: each piece as it was counted and weighed.'),
  insurerTold: z.literal(true).optional().describe('With the move to lost.'),
});

export const FinenessReply = z.object({
  standardFraction: z.number().nullable(),
  withoutSolderFraction: z.number(),
  wholeFraction: z.number().nullable().describe('With the solder that stays in its joints; null when that is not known.'),
  leastSolderFraction: z.number().nullable(),
  finishedG: z.number(),
  finding: z.enum(['within', 'outside', 'unknown', 'no_rule']),
  says: z.array(z.string()),
});

export const PacketReply = z.object({
  id: z.string(),
  number: z.string(),
  place: z.string(),
  office: z.string(),
  fee: Money,
  post: Money,
  perArticle: Money,
  articles: z.number().int(),
  state: PacketState,
  stateReason: z.string().nullable(),
  sentOn: z.string().nullable(),
  backOn: z.string().nullable(),
  daysOut: z.number().int().nullable().describe('From sent to back, or until today.'),
  pieces: z.array(
    z.object({
      pieceId: z.string(),
      number: z.string(),
      state: z.string(),
      parts: z.string(),
      marks: z.string().nullable(),
      weighedG: z.number().nullable(),
      backG: z.number().nullable(),
      outcome: z.enum(['struck', 'refused', 'lost']).nullable(),
      partMarks: Money,
      cost: Money.describe('(fee + post)/articles + per article + part marks, rounded half-up.'),
      fineness: FinenessReply.nullable().describe('Against the rules of the place; null when design or plan is missing.'),
    }),
  ),
  total: Money.describe('Fee, post, articles and part marks of the whole packet.'),
  allowedMoves: z.array(z.string()),
  version: z.number().int(),
  createdAt: z.string(),
});

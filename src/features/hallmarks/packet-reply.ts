import type { z } from 'zod';
import { fineness, type Fineness } from '../../../shared/costing/fineness.ts';
import { packetShare } from '../../../shared/costing/packet-share.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { dateInZone, daysBetween } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { Actor } from '../../platform/http/actor.ts';
import { money } from '../../platform/http/money.ts';
import { allowedMoves } from '../../platform/http/moves.ts';
import { getPiece, type PieceRow } from '../pieces/index.ts';
import { findPlaceRules } from '../place-rules/index.ts';
import { weighablePiece } from '../quotes/index.ts';
import { getSettings } from '../settings/index.ts';
import { toG } from '../stock/index.ts';
import type { PacketReply } from './hallmark-packets.schema.ts';
import * as store from './hallmark-packets.store.ts';

type Reply = z.infer<typeof PacketReply>;

export function showPacket(db: Db, actor: Actor, row: store.PacketRow, now: Date): Reply {
  const today = dateInZone(now, getSettings(db).timeZone);
  const packed = store.packedIn(db, row.id);
  const { currency, feeMinor, postMinor, perArticleMinor, articles } = row;
  return {
    id: row.id,
    number: row.number,
    place: row.place,
    office: row.office,
    fee: money(feeMinor, currency),
    post: money(postMinor, currency),
    perArticle: money(perArticleMinor, currency),
    articles,
    state: row.state as Reply['state'],
    stateReason: row.stateReason,
    sentOn: row.sentOn,
    backOn: row.backOn,
    daysOut: row.sentOn === null ? null : daysBetween(row.sentOn, row.backOn ?? today),
    pieces: packed.map((one) => showPacked(db, row, one)),
    total: money(
      feeMinor + postMinor + articles * perArticleMinor + packed.reduce((sum, { partMarksMinor }) => sum + partMarksMinor, 0),
      currency,
    ),
    allowedMoves: allowedMoves('hallmark_packet', actor, { state: row.state }),
    version: row.version,
    createdAt: row.createdAt,
  };
}

function showPacked(db: Db, row: store.PacketRow, packed: store.PackedRow): Reply['pieces'][number] {
  const piece = getPiece(db, packed.pieceId);
  return {
    pieceId: piece.id,
    number: piece.number,
    state: piece.state,
    parts: packed.parts,
    marks: packed.marks,
    weighedG: packed.weighedTenthMg === null ? null : toG(packed.weighedTenthMg),
    backG: packed.backTenthMg === null ? null : toG(packed.backTenthMg),
    outcome: packed.outcome as Reply['pieces'][number]['outcome'],
    partMarks: money(packed.partMarksMinor, row.currency),
    cost: money(shareOf(row, packed).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber(), row.currency),
    fineness: finenessOf(db, piece, row.place),
  };
}

/** In minor units, exact. */
function shareOf({ feeMinor, postMinor, perArticleMinor, articles }: store.PacketRow, { partMarksMinor }: store.PackedRow) {
  return packetShare({
    fee: String(feeMinor),
    post: String(postMinor),
    articles,
    perArticle: String(perArticleMinor),
    partMarks: String(partMarksMinor),
  });
}

/** By design and plan, and by what was really put in; null where there is no design or no plan. */
export function finenessOf(db: Db, piece: PieceRow, place: string): Fineness | null {
  const weighable = weighablePiece(db, piece);
  if ('missing' in weighable || weighable.design.parts.length === 0) return null;
  const putIn = store.silverPutInto(db, piece.id).map(({ silverFraction }) => silverFraction ?? undefined);
  return fineness({ ...weighable, putIn }, findPlaceRules(db, place) ?? null);
}

import { standardOf } from '../../../shared/costing/fineness.ts';
import { getMetal } from '../../../shared/materials/metal.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { currentDesign, type PieceRow } from '../pieces/index.ts';
import { getSettings } from '../settings/index.ts';
import { toG } from '../stock/index.ts';
import * as store from './documents.store.ts';
import { fact, linesOf } from './frame.ts';
import type { Paper } from './paper.ts';
import { mainMetal, metalsOf } from './piece-words.ts';
import { wordingFor, type Wording } from './wording.ts';

/**
 * What lies in a parcel for the office: each piece with its metal, weight and marks asked. In the language of the studio; neither
 * client nor title is on it.
 */
export function packetList(db: Db, packet: store.PacketRow, at: Date): Paper {
  const settings = getSettings(db);
  const wording = wordingFor(settings.language);
  const { say, grams } = wording;
  const { number, office, sentOn, articles } = packet;
  const packed = store.packedIn(db, packet.id);
  const day = sentOn ?? dateInZone(at, settings.timeZone);
  const weights = packed.map(({ weighedTenthMg }) => weighedTenthMg);
  const known = weights.filter((weight) => weight !== null);
  const count = say('packet.pieces', { count: packed.length });
  return {
    language: wording.locale,
    title: `${say('paper.packet')} ${number}`,
    author: settings.studioName,
    size: settings.papers.size,
    writtenAt: `${day}T00:00:00.000Z`,
    blocks: [
      { kind: 'letterhead', name: settings.studioName, lines: linesOf(settings.papers.address) },
      { kind: 'address', lines: [office] },
      { kind: 'title', text: `${say('paper.packet')} ${number}` },
      {
        kind: 'facts',
        rows: [
          ...fact(say('label.date'), wording.date(day)),
          ...fact(say('label.quantity'), count),
          ...fact(say('packet.articles'), articles > packed.length ? wording.number(articles, 0) : null),
        ],
      },
      ...(packet.state === 'packing' ? [{ kind: 'notice' as const, text: say('packet.packing') }] : []),
      {
        kind: 'table',
        head: [say('packet.article'), say('label.metal'), say('packet.marks'), say('label.weight_column')],
        rows: packed.map(({ piece, parts, marks, weighedTenthMg }) => [
          `${piece.number}: ${parts}`,
          metals(db, piece, wording),
          marks ?? marksOf(db, piece, wording),
          weighedTenthMg === null ? say('packet.to_weigh') : grams(toG(weighedTenthMg)),
        ]),
        ...(known.length === weights.length
          ? {
              total: [`${say('packet.total')}, ${count}`, '', '', grams(toG(known.reduce((sum, one) => sum + one, 0)))],
            }
          : {}),
        amounts: true,
        shares: [0.32, 0.3, 0.24, 0.14],
      },
      { kind: 'paragraph', text: say('packet.count_back') },
      { kind: 'blanks', labels: [say('packet.packed_by'), say('packet.received_by')] },
    ],
  };
}

function metals(db: Db, piece: PieceRow, wording: Wording): string {
  const design = currentDesign(db, piece.id)?.body;
  return design ? metalsOf(design.parts, wording).join('\n') : mainMetal(db, piece, wording);
}

/** The standard that all its parts reach, in thousandths; nothing to say for what reaches none. */
function marksOf(db: Db, { id }: PieceRow, { say, number }: Wording): string {
  const parts = currentDesign(db, id)?.body.parts ?? [];
  const standard = standardOf(Math.min(...parts.map(({ metal }) => getMetal(metal).finenessFraction)));
  return parts.length === 0 || standard === null ? '' : say('packet.fineness', { thousandths: number(standard * 1000, 0) });
}

import type { z } from 'zod';
import { packetShare } from '../../../shared/costing/packet-share.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import { dateInZone, daysBetween } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money } from '../../platform/http/money.ts';
import { getSettings } from '../settings/index.ts';
import type { Asked } from './asked.ts';
import type { HallmarkPacketsReply } from './bench-reports.schema.ts';
import { packetsWithPieces, type PackedRow, type PacketRow } from './bench-reports.store.ts';

type Report = z.infer<typeof HallmarkPacketsReply>;
type Row = Report['rows'][number];

/** Packets to be assayed and marked: how long they were out, what was refused, and what each piece came to. */
export function hallmarkReport(db: Db, { now, period, actor }: Asked): Report {
  const today = dateInZone(now, getSettings(db).timeZone);
  const found = packetsWithPieces(db, period);
  const outcomes = found.flatMap(({ packed }) => packed.map(({ outcome }) => outcome));
  const of = (wanted: string) => outcomes.filter((outcome) => outcome === wanted).length;
  return {
    report: 'hallmark-packets',
    asOf: now.toISOString(),
    ...period,
    today,
    about: [
      'Packets by the day they were sent; one that is being packed has none, and is there when no period is asked for',
      'Cost per piece: (fee + post)/articles + per article + part marks, the mean of the pieces of this book, rounded half-up',
    ],
    totals: { packets: found.length, pieces: outcomes.length, struck: of('struck'), refused: of('refused'), lost: of('lost') },
    rows: found.map(({ packet, packed }): Row => {
      const { id, number, place, office, state, sentOn, backOn } = packet;
      return {
        packetId: id,
        number,
        place,
        office,
        state,
        sentOn,
        backOn,
        days: sentOn === null || state === 'lost' ? null : daysBetween(sentOn, backOn ?? today),
        pieces: packed.length,
        refused: packed.filter(({ outcome }) => outcome === 'refused').length,
        costPerPiece: actor.roles.has('owner') ? meanCost(packet, packed) : null,
        entries: { pieceIds: packed.map(({ pieceId }) => pieceId) },
      };
    }),
  };
}

function meanCost({ feeMinor, postMinor, perArticleMinor, articles, currency }: PacketRow, packed: readonly PackedRow[]) {
  if (packed.length === 0) return null;
  const shares = packed.map(({ partMarksMinor }) =>
    packetShare({
      fee: String(feeMinor),
      post: String(postMinor),
      articles,
      perArticle: String(perArticleMinor),
      partMarks: String(partMarksMinor),
    }),
  );
  return money(sum(shares).div(packed.length).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber(), currency);
}

export function hallmarkCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'packet', value: ({ number }) => number },
    { header: 'place', value: ({ place }) => place },
    { header: 'office', value: ({ office }) => office },
    { header: 'state', value: ({ state }) => state },
    { header: 'sent_on', value: ({ sentOn }) => sentOn },
    { header: 'back_on', value: ({ backOn }) => backOn },
    { header: 'days', value: ({ days }) => days },
    { header: 'pieces', value: ({ pieces }) => pieces },
    { header: 'refused', value: ({ refused }) => refused },
    { header: 'currency', value: ({ costPerPiece }) => costPerPiece?.currency },
    { header: 'cost_per_piece_in_currency', value: ({ costPerPiece }) => inMajor(costPerPiece) },
  ];
  return csvOf(columns, rows);
}

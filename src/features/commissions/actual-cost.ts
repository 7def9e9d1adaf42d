import { pricePerG } from '../../../shared/costing/inputs.ts';
import { packetShare } from '../../../shared/costing/packet-share.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import type { Db } from '../../platform/db/client.ts';
import { inMajor } from '../../platform/http/csv.ts';
import { toMinor } from '../../platform/http/money.ts';
import { piecesOfAll, type PieceRow } from '../pieces/index.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { lineCosts, toG } from '../stock/index.ts';
import { metalOf, packetsOf, solderOf, timesOf } from './actual-cost.store.ts';

type Time = ReturnType<typeof timesOf>[number];
/**
 * A line of the ledger of solder or metal, with what it cost the stock, oldest first or at the average as the studio has chosen; of a
 * client's metal, nothing.
 */
type Line = ReturnType<typeof solderOf>[number] & { cost: Decimal };
type Packet = ReturnType<typeof packetsOf>[number];

type CostGroup = 'labour' | 'overhead' | 'consumables' | 'metal' | 'solder' | 'hallmark';

interface ActualCost {
  minutes: number;
  metalG: number;
  solderG: number;
  costMinor: Record<CostGroup, number>;
  pieces: {
    pieceId: string;
    number: string;
    state: string;
    minutes: number;
    metalG: number;
    solderG: number;
    costMinor: number;
  }[];
  /** Metals that were issued and have no price in the settings: not in the cost. */
  unpricedMetals: string[];
  /** What could not be counted, in words; empty: all of it is known. */
  unknown: string[];
  entries: { benchTimeIds: string[]; movementIds: string[]; packetIds: string[] };
}

/** What was taken of the studio's time and stock. */
interface Taken {
  times: Time[];
  solder: Line[];
  packets: Packet[];
  pieces: Piece[];
}

/** What the pieces of some commissions have taken so far, scrapped ones included. Each group is rounded once. */
export function actualCosts(db: Db, commissionIds: readonly string[]): (commissionId: string) => ActualCost {
  const settings = getSettings(db);
  const times = groupBy(timesOf(db, commissionIds), ({ commissionId }) => commissionId);
  const solder = groupBy(costed(db, 'solder', solderOf(db, commissionIds)), ({ commissionId }) => commissionId);
  const metal = groupBy(costed(db, 'metal', metalOf(db, commissionIds)), ({ commissionId }) => commissionId);
  const packets = groupBy(packetsOf(db, commissionIds), ({ commissionId }) => commissionId);
  const pieces = groupBy(piecesOfAll(db, commissionIds), ({ commissionId }) => commissionId);
  return (commissionId) => {
    const fromLots = groupBy(metal.get(commissionId) ?? [], ({ pieceId }) => pieceId);
    const taken = {
      times: times.get(commissionId) ?? [],
      solder: solder.get(commissionId) ?? [],
      packets: packets.get(commissionId) ?? [],
      pieces: (pieces.get(commissionId) ?? []).map((piece) => ({ ...piece, fromLots: fromLots.get(piece.id) ?? [] })),
    };
    return costOfCommission(taken, metal.get(commissionId) ?? [], settings);
  };
}

function costed(db: Db, ledger: 'solder' | 'metal', lines: ReturnType<typeof solderOf>): Line[] {
  const { costOf } = lineCosts(db, ledger);
  return lines.map((line) => ({ ...line, cost: new Decimal(costOf(line.id) ?? 0) }));
}

function costOfCommission(taken: Taken, metal: readonly Line[], settings: Settings): ActualCost {
  const { times, solder, packets, pieces } = taken;
  const ofPiece = {
    times: groupBy(times, ({ pieceId }) => pieceId),
    solder: groupBy(solder, ({ pieceId }) => pieceId),
    packets: groupBy(packets, ({ pieceId }) => pieceId),
  };
  return {
    minutes: minutesOf(times),
    metalG: metalGOf(pieces),
    solderG: solderGOf(solder),
    costMinor: mapValues(costsOf(taken, settings), (exact) => toMinor(exact, settings.currency)),
    pieces: pieces.map((piece) => {
      const own = {
        times: ofPiece.times.get(piece.id) ?? [],
        solder: ofPiece.solder.get(piece.id) ?? [],
        packets: ofPiece.packets.get(piece.id) ?? [],
        pieces: [piece],
      };
      return {
        pieceId: piece.id,
        number: piece.number,
        state: piece.state,
        minutes: minutesOf(own.times),
        metalG: metalGOf([piece]),
        solderG: solderGOf(own.solder),
        costMinor: toMinor(sum(Object.values(costsOf(own, settings))), settings.currency),
      };
    }),
    unpricedMetals: unpricedOf(pieces, settings),
    unknown: unknownOf(pieces, settings),
    entries: {
      benchTimeIds: times.map(({ id }) => id),
      movementIds: [...solder, ...metal].map(({ id }) => id),
      packetIds: [...new Set(packets.map(({ id }) => id))],
    },
  };
}

/** A piece, and the metal that came to it out of lots; none: what was issued is only noted. */
type Piece = PieceRow & { fromLots: Line[] };

/**
 * Time at the rate of the day it was worked; metal and solder at what the ledger says they cost, metal that came out of no lot at what
 * the settings say it costs now; a share of each packet.
 */
function costsOf({ times, solder, packets, pieces }: Taken, settings: Settings): Record<CostGroup, Decimal> {
  const hours = sum(times.map(hoursOf));
  return {
    labour: sum(times.map((time) => hoursOf(time).times(time.ratePerHour))),
    overhead: hours.times(settings.overheadPerBenchHour),
    consumables: hours.times(settings.consumablesPerBenchHour),
    metal: sum(
      pieces.map((piece) => {
        if (piece.fromLots.length > 0) return sum(piece.fromLots.map(({ cost }) => cost)).times(shareKept(piece));
        const price = settings.metalPrices[piece.metal];
        return price ? pricePerG(piece.metal, price).times(metalGOf([piece])) : new Decimal(0);
      }),
    ),
    solder: sum(solder.map(({ cost }) => cost)),
    hallmark: sum(packets.map(packetCost)),
  };
}

function packetCost({ feeMinor, postMinor, perArticleMinor, articles, partMarksMinor, currency }: Packet): Decimal {
  const of = (minor: number) => inMajor({ amountMinor: minor, currency })!;
  return packetShare({
    fee: of(feeMinor),
    post: of(postMinor),
    articles,
    perArticle: of(perArticleMinor),
    partMarks: of(partMarksMinor),
  });
}

function unpricedOf(pieces: Piece[], { metalPrices }: Settings): string[] {
  const unpriced = pieces.filter((piece) => piece.fromLots.length === 0 && metalGOf([piece]) !== 0 && !metalPrices[piece.metal]);
  return [...new Set(unpriced.map(({ metal }) => metal))];
}

function unknownOf(pieces: Piece[], settings: Settings): string[] {
  const begun = pieces.filter(({ state }) => state !== 'drawn');
  return [
    ...begun
      .filter(({ metalIssuedTenthMg, fromLots }) => metalIssuedTenthMg === null && fromLots.length === 0)
      .map(({ number }) => `the metal issued for ${number} is not noted`),
    ...unpricedOf(pieces, settings).map((metal) => `the settings have no price for ${metal}`),
  ];
}

function hoursOf({ minutes }: Time): Decimal {
  return new Decimal(minutes).div(60);
}

function minutesOf(times: Time[]): number {
  return sum(times.map(({ minutes }) => new Decimal(minutes)))
    .toDecimalPlaces(1)
    .toNumber();
}

function metalGOf(pieces: Piece[]): number {
  return toG(pieces.reduce((total, piece) => total + issuedOf(piece) - (piece.metalReturnedTenthMg ?? 0), 0));
}

/** What went to a piece and did not come back into the drawer. */
function issuedOf({ fromLots, metalIssuedTenthMg }: Piece): number {
  if (fromLots.length === 0) return metalIssuedTenthMg ?? 0;
  return fromLots.reduce((total, { onHandTenthMg }) => total - onHandTenthMg, 0);
}

/** The metal of a scrapped piece that was weighed into the jar is not what it cost. */
function shareKept(piece: Piece): Decimal {
  const issued = issuedOf(piece);
  if (issued <= 0) return new Decimal(1);
  return new Decimal(Math.max(0, issued - (piece.metalReturnedTenthMg ?? 0))).div(issued);
}

function solderGOf(solder: Line[]): number {
  return toG(solder.reduce((total, { onHandTenthMg }) => total - onHandTenthMg, 0) + 0);
}

function mapValues<Key extends string, From, To>(record: Record<Key, From>, change: (value: From) => To): Record<Key, To> {
  return Object.fromEntries(Object.entries<From>(record).map(([key, value]) => [key, change(value)])) as Record<Key, To>;
}

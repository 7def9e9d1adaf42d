import { pricePerG } from '../../../shared/costing/inputs.ts';
import { packetShare } from '../../../shared/costing/packet-share.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import type { Db } from '../../platform/db/client.ts';
import { inMajor } from '../../platform/http/csv.ts';
import { toMinor } from '../../platform/http/money.ts';
import { piecesOf, type PieceRow } from '../pieces/index.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { toG } from '../stock/index.ts';
import { packetsOf, solderOf, timesOf } from './actual-cost.store.ts';

type Time = ReturnType<typeof timesOf>[number];
type Solder = ReturnType<typeof solderOf>[number];
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

/** What the pieces of a commission have taken so far, scrapped ones included. Each group is rounded once. */
export function actualCost(db: Db, commissionId: string): ActualCost {
  const settings = getSettings(db);
  const times = timesOf(db, commissionId);
  const solder = solderOf(db, commissionId);
  const packets = packetsOf(db, commissionId);
  const pieces = piecesOf(db, commissionId);
  const costs = costsOf({ times, solder, packets, pieces }, settings);
  return {
    minutes: minutesOf(times),
    metalG: metalGOf(pieces),
    solderG: solderGOf(solder),
    costMinor: mapValues(costs, (exact) => toMinor(exact, settings.currency)),
    pieces: pieces.map((piece) => {
      const own = {
        times: times.filter(({ pieceId }) => pieceId === piece.id),
        solder: solder.filter(({ pieceId }) => pieceId === piece.id),
        packets: packets.filter(({ pieceId }) => pieceId === piece.id),
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
      movementIds: solder.map(({ id }) => id),
      packetIds: [...new Set(packets.map(({ id }) => id))],
    },
  };
}

/** Time at the rate of the day it was worked; metal at what the settings say it costs now; solder at the cost of its lot; a share of each packet. */
function costsOf(
  { times, solder, packets, pieces }: { times: Time[]; solder: Solder[]; packets: Packet[]; pieces: PieceRow[] },
  settings: Settings,
): Record<CostGroup, Decimal> {
  const hours = sum(times.map(hoursOf));
  return {
    labour: sum(times.map((time) => hoursOf(time).times(time.ratePerHour))),
    overhead: hours.times(settings.overheadPerBenchHour),
    consumables: hours.times(settings.consumablesPerBenchHour),
    metal: sum(
      pieces.map((piece) => {
        const price = settings.metalPrices[piece.metal];
        return price ? pricePerG(piece.metal, price).times(metalGOf([piece])) : new Decimal(0);
      }),
    ),
    solder: sum(solder.map(({ onHandTenthMg, costPerG }) => new Decimal(costPerG).times(toG(-onHandTenthMg)))),
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

function unpricedOf(pieces: PieceRow[], { metalPrices }: Settings): string[] {
  const unpriced = pieces.filter((piece) => metalGOf([piece]) !== 0 && !metalPrices[piece.metal]);
  return [...new Set(unpriced.map(({ metal }) => metal))];
}

function unknownOf(pieces: PieceRow[], settings: Settings): string[] {
  const begun = pieces.filter(({ state }) => state !== 'drawn');
  return [
    ...begun
      .filter(({ metalIssuedTenthMg }) => metalIssuedTenthMg === null)
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

function metalGOf(pieces: PieceRow[]): number {
  return toG(
    pieces.reduce(
      (total, { metalIssuedTenthMg, metalReturnedTenthMg }) => total + (metalIssuedTenthMg ?? 0) - (metalReturnedTenthMg ?? 0),
      0,
    ),
  );
}

function solderGOf(solder: Solder[]): number {
  return toG(solder.reduce((total, { onHandTenthMg }) => total - onHandTenthMg, 0) + 0);
}

function mapValues<Key extends string, From, To>(record: Record<Key, From>, change: (value: From) => To): Record<Key, To> {
  return Object.fromEntries(Object.entries<From>(record).map(([key, value]) => [key, change(value)])) as Record<Key, To>;
}

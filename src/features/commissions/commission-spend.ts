import { Decimal } from 'decimal.js';
import { minorDigits } from '../../../shared/costing/currency.ts';
import { and, eq, isNotNull, ne } from 'drizzle-orm';
import type { Db } from '../../platform/db/client.ts';
import { benchTimes, pieces, solderLots, stockMovements } from '../../platform/db/tables.ts';
import { money } from '../../platform/http/money.ts';
import { getSettings } from '../settings/index.ts';

const TENTH_MG_PER_G = 10_000;
const G_PER = { g: '1', dwt: '1.55517384', ozt: '31.1034768' } as const;

/** What a commission has cost us so far: time at the bench, solder used, metal issued and not returned. */
export function spendToDate(db: Db, commissionId: string) {
  const settings = getSettings(db);
  const { currency } = settings;
  const toMinor = (amount: Decimal) =>
    amount
      .mul(Decimal.pow(10, minorDigits(currency)))
      .toDecimalPlaces(0, Decimal.ROUND_HALF_UP)
      .toNumber();
  const times = timesOf(db, commissionId);
  const hours = sum(times.map(({ hours }) => hours));
  const metals = metalOf(db, commissionId).map(({ metal, tenthMg }) => ({ metal, tenthMg, price: settings.metalPrices[metal] }));
  const minor = {
    labour: toMinor(sum(times.map(({ hours, ratePerHour }) => hours.mul(ratePerHour)))),
    overhead: toMinor(hours.mul(settings.overheadPerBenchHour)),
    consumables: toMinor(hours.mul(settings.consumablesPerBenchHour)),
    solder: toMinor(sum(solderOf(db, commissionId).map(({ tenthMg, costPerG }) => grams(-tenthMg).mul(costPerG)))),
    metal: toMinor(
      sum(metals.map(({ tenthMg, price }) => (price ? grams(tenthMg).mul(price.amount).div(G_PER[price.per]) : new Decimal(0)))),
    ),
  };
  const totalMinor = Object.values(minor).reduce((total, one) => total + one, 0);
  return {
    minutes: hours.mul(60).toDecimalPlaces(2).toNumber(),
    labour: money(minor.labour, currency),
    overhead: money(minor.overhead, currency),
    consumables: money(minor.consumables, currency),
    solder: money(minor.solder, currency),
    metal: money(minor.metal, currency),
    total: money(totalMinor, currency),
    unpricedMetals: [...new Set(metals.filter(({ price }) => !price).map(({ metal }) => metal))],
  };
}

/** Spans that ended and are not in doubt; a timer that runs counts when it stops. */
function timesOf(db: Db, commissionId: string) {
  return db
    .select({ time: benchTimes })
    .from(benchTimes)
    .innerJoin(pieces, eq(pieces.id, benchTimes.pieceId))
    .where(and(eq(pieces.commissionId, commissionId), ne(benchTimes.state, 'running'), ne(benchTimes.state, 'in_doubt')))
    .all()
    .map(({ time: { startedAt, stoppedAt, minutesByHand, ratePerHour } }) => ({
      ratePerHour,
      hours:
        minutesByHand === null
          ? new Decimal(Date.parse(stoppedAt ?? startedAt) - Date.parse(startedAt)).div(3_600_000)
          : new Decimal(minutesByHand).div(60),
    }));
}

/** What left the lots for its pieces, at what each lot cost; negative: out of the lot. */
function solderOf(db: Db, commissionId: string) {
  return db
    .select({ tenthMg: stockMovements.onHandTenthMg, costPerG: solderLots.unitCostPerG })
    .from(stockMovements)
    .innerJoin(solderLots, eq(solderLots.id, stockMovements.lotId))
    .innerJoin(pieces, eq(pieces.id, stockMovements.pieceId))
    .where(eq(pieces.commissionId, commissionId))
    .all();
}

function metalOf(db: Db, commissionId: string) {
  return db
    .select({ metal: pieces.metal, issued: pieces.metalIssuedTenthMg, returned: pieces.metalReturnedTenthMg })
    .from(pieces)
    .where(and(eq(pieces.commissionId, commissionId), isNotNull(pieces.metalIssuedTenthMg)))
    .all()
    .map(({ metal, issued, returned }) => ({ metal, tenthMg: (issued ?? 0) - (returned ?? 0) }));
}

function grams(tenthMg: number): Decimal {
  return new Decimal(tenthMg).div(TENTH_MG_PER_G);
}

function sum(values: Decimal[]): Decimal {
  return values.reduce((total, value) => total.add(value), new Decimal(0));
}

import type { z } from 'zod';
import { pricePerG } from '../../../shared/costing/inputs.ts';
import { Decimal } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { LIFECYCLES } from '../../../shared/lifecycles/lifecycles.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money, type Money } from '../../platform/http/money.ts';
import { actualCosts } from '../commissions/index.ts';
import { jarsNow } from '../scrap/index.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { allMetalProducts, allProducts, inMoney, metalLevels, toG, wholeCosts } from '../stock/index.ts';
import { momentsOf, within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';
import type { YearEndReply } from './stock-reports.schema.ts';
import { paymentsReceived, piecesOpen, sold } from './stock-reports.store.ts';

type Report = z.infer<typeof YearEndReply>;
type Row = Report['rows'][number];

/** What is finished is in nobody's hands any more, or on the shelf as a ready piece. */
const NOT_IN_WORK = new Set(['drawn', 'scrapped', 'given']);
const IN_WORK = LIFECYCLES.piece.states.filter((state) => !NOT_IN_WORK.has(state));

const EMPTY = {
  number: null,
  grams: null,
  cost: null,
  value: null,
  counted: null,
  month: null,
  rateFraction: null,
  entryIds: [],
};

/** Stock, work in hand, filings, client metal, deposits and tax: what an accountant asks for at the end of a year. */
export function yearEnd(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const settings = getSettings(db);
  const { currency, timeZone } = settings;
  const today = dateInZone(now, timeZone);
  const on = period.to !== null && period.to < today ? period.to : today;
  const rows = [
    ...stock(db, settings, on),
    ...unfinished(db, currency),
    ...filings(db, settings),
    ...clientMetal(db, currency),
    ...deposits(db, settings, on),
    ...tax(db, settings, period),
  ];
  const total = (section: Row['section'], pick: (row: Row) => Money | null): Money =>
    money(
      rows
        .filter((row) => row.section === section)
        .map(pick)
        .reduce((sum, amount) => sum + (amount?.currency === currency ? amount.amountMinor : 0), 0),
      currency,
    );
  const priced = rows.some(({ section, value }) => section === 'filings' && value !== null);
  return {
    report: 'year-end',
    asOf: now.toISOString(),
    ...period,
    on,
    about: [
      `Stock as it was on the evening of ${on}, each delivery at the lower of what it cost and what it costs today`,
      'Unfinished: time at the rate of the day, overhead, consumables, solder and metal of pieces begun and not given away, as of now',
      'Filings: fine metal expected in the jars as of now, at what the refiner pays of the fine price in the settings',
      'Client metal is counted and worth nothing to us',
      'Deposits: what was received by that evening for work that had not been handed over by then, less what was sent back; ask your accountant when tax is due on them',
      'Tax: of the accepted version of what was handed over in the period, by the month it first was',
      ...(rows.some(({ value }) => value !== null && value.currency !== currency)
        ? [`Totals are in ${currency} alone; rows in another currency are not in them`]
        : []),
    ],
    currency,
    totals: {
      stock: total('stock', ({ counted }) => counted),
      unfinished: total('unfinished', ({ cost }) => cost),
      filings: priced ? total('filings', ({ value }) => value) : null,
      deposits: total('deposits', ({ value }) => value),
      tax: total('tax', ({ value }) => value),
    },
    rows,
  };
}

/** Each delivery that is left: what it cost, what it would cost now, and the lower of the two. */
function stock(db: Db, { currency }: Settings, until: string): Row[] {
  const solder = wholeCosts(db, 'solder', until).byProduct;
  const metal = wholeCosts(db, 'metal', until).byProduct;
  const products = [
    ...allProducts(db).map(({ id, name, pricePerG: perG }) => ({ id, name, perG, layers: solder.get(id)?.layers })),
    ...allMetalProducts(db).map(({ id, name, price }) => ({
      id,
      name,
      perG: pricePerG(name, price).toFixed(),
      layers: metal.get(id)?.layers,
    })),
  ];
  return products.flatMap(({ id, name, perG, layers = [] }) =>
    layers
      .filter(({ tenthMg }) => tenthMg > 0)
      .map(({ lot, tenthMg, costPerG }): Row => {
        const worth = (amount: string) => inMoney(currency, new Decimal(amount).times(toG(tenthMg)).toFixed());
        return {
          ...EMPTY,
          section: 'stock',
          what: name,
          number: lot,
          grams: toG(tenthMg),
          cost: worth(costPerG),
          value: worth(perG),
          counted: worth(Decimal.min(costPerG, perG).toFixed()),
          entryIds: [id],
        };
      }),
  );
}

function unfinished(db: Db, currency: string): Row[] {
  const begun = piecesOpen(db, IN_WORK);
  const byCommission = groupBy(begun, ({ commission }) => commission.id);
  const costOf = actualCosts(db, [...byCommission.keys()]);
  return [...byCommission].flatMap(([commissionId, own]) => {
    const ids = new Set(own.map(({ piece }) => piece.id));
    return costOf(commissionId)
      .pieces.filter(({ pieceId }) => ids.has(pieceId))
      .map(({ pieceId, number, minutes, metalG, costMinor }): Row => ({
        ...EMPTY,
        section: 'unfinished',
        what: `${minutes} min and ${metalG} g of metal so far`,
        number,
        grams: metalG,
        cost: money(costMinor, currency),
        entryIds: [pieceId],
      }));
  });
}

function filings(db: Db, { finePrice, refiner, scrapCredit, currency }: Settings): Row[] {
  const pay = refiner?.payFraction ?? scrapCredit?.filingsPayFraction;
  return jarsNow(db).flatMap(({ jar, expectedFineTenthMg, pieces }): Row[] => {
    if (expectedFineTenthMg === null || expectedFineTenthMg === 0) return [];
    const fineG = toG(expectedFineTenthMg);
    return [
      {
        ...EMPTY,
        section: 'filings',
        what: `fine metal expected in the jar of ${jar.replaceAll('_', ' ')}`,
        grams: fineG,
        value:
          finePrice && pay !== undefined
            ? inMoney(currency, new Decimal(finePrice.perG).times(fineG).times(pay).toFixed())
            : null,
        entryIds: pieces.map(({ pieceId }) => pieceId),
      },
    ];
  });
}

function clientMetal(db: Db, currency: string): Row[] {
  return metalLevels(db).flatMap(({ product, clientLots }) =>
    clientLots.map(({ lot, onHandTenthMg }): Row => ({
      ...EMPTY,
      section: 'client_metal',
      what: product.name,
      number: lot.number,
      grams: toG(onHandTenthMg),
      value: money(0, currency),
      entryIds: [lot.id],
    })),
  );
}

/** What was received by that evening for work that had not been handed over by then, whatever became of it since. */
function deposits(db: Db, { timeZone }: Settings, on: string): Row[] {
  const held = paymentsReceived(db).filter(({ payment, state, handedOverAt }) => {
    const isOut = state === 'handed_over' || state === 'settled';
    const wasOut = isOut && (handedOverAt === null || dateInZone(new Date(handedOverAt), timeZone) <= on);
    return payment.receivedOn! <= on && !wasOut;
  });
  return [...groupBy(held, ({ number }) => number)].flatMap(([number, own]): Row[] => {
    const minor = own.reduce(
      (sum, { payment }) => sum + (payment.kind === 'send_back' ? -payment.amountMinor : payment.amountMinor),
      0,
    );
    if (minor === 0) return [];
    const value = money(minor, own[0]!.payment.currency);
    return [
      {
        ...EMPTY,
        section: 'deposits',
        what: 'held for work that is not handed over',
        number,
        value,
        entryIds: own.map(({ payment }) => payment.id),
      },
    ];
  });
}

function tax(db: Db, { timeZone }: Settings, period: Period): Row[] {
  const bills = sold(db, momentsOf(period, timeZone))
    .map(({ at, quote }) => ({ day: dateInZone(new Date(at), timeZone), quote }))
    .filter(({ day }) => within(day, period));
  const byMonthAndRate = groupBy(
    bills,
    ({ day, quote }) => `${day.slice(0, 7)} ${quote.request.policy.tax.rateFraction} ${quote.currency}`,
  );
  return [...byMonthAndRate]
    .toSorted(([a], [b]) => a.localeCompare(b))
    .map(([key, own]): Row => {
      const [month = '', rate = '0', currency = ''] = key.split(' ');
      const [net, gross] = [sumOf(own, ({ netMinor }) => netMinor), sumOf(own, ({ grossMinor }) => grossMinor)];
      return {
        ...EMPTY,
        section: 'tax',
        what: own.length === 1 ? 'of one bill' : `of ${own.length} bills`,
        month,
        rateFraction: Number(rate),
        cost: money(net, currency),
        value: money(gross - net, currency),
        entryIds: own.map(({ quote }) => quote.id),
      };
    });
}

function sumOf(
  bills: readonly { quote: ReturnType<typeof sold>[number]['quote'] }[],
  pick: (quote: ReturnType<typeof sold>[number]['quote']) => number,
): number {
  return bills.reduce((sum, { quote }) => sum + pick(quote), 0);
}

export function yearEndCsv({ currency, rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'section', value: ({ section }) => section },
    {
      header: 'what',
      value: ({ what, value }) => (value && value.currency !== currency ? `${what}, in ${value.currency}` : what),
    },
    { header: 'number', value: ({ number }) => number },
    { header: 'month', value: ({ month }) => month },
    { header: 'rate_fraction', value: ({ rateFraction }) => rateFraction },
    { header: 'grams', value: ({ grams }) => grams },
    { header: `cost_or_net_${currency}`, value: ({ cost }) => inMajor(cost) },
    { header: `value_or_tax_${currency}`, value: ({ value }) => inMajor(value) },
    { header: `counted_${currency}`, value: ({ counted }) => inMajor(counted) },
  ];
  return csvOf(columns, rows);
}

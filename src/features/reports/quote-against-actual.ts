import type { z } from 'zod';
import { slicesOf } from '../../../shared/slices-of.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money, type Money } from '../../platform/http/money.ts';
import { actualCosts, boughtInMinor } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import { plannedWork, type PlannedWork } from './planned-work.ts';
import { momentsOf, round, within } from './report-numbers.ts';
import type { Period, QuoteAgainstActualReply } from './reports.schema.ts';
import { commissionsOfDays, type CommissionRow, type QuoteRow } from './reports.store.ts';

type Report = z.infer<typeof QuoteAgainstActualReply>;
type Row = Report['rows'][number];

const OVER = new Set(['made', 'handed_over', 'settled']);
/** So many quotes are in memory at once, whatever the period. */
const AT_ONCE = 250;
const ALL = ['agreed', 'on_bench', 'resting', ...OVER, 'called_off'];

/** What each commission was quoted at, beside what it took. */
export function quoteAgainstActual(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone, currency } = getSettings(db);
  const rows = slicesOf(commissionsOfDays(db, ALL, momentsOf(period, timeZone)), AT_ONCE)
    .flatMap((commissions) => rowsOf(db, commissions, { timeZone, currency }))
    .filter(({ day }) => within(day, period));
  return {
    report: 'quote-against-actual',
    asOf: now.toISOString(),
    ...period,
    currency,
    about: [
      'The day of a commission is that on which its quote was accepted; without one, that on which it was noted',
      'Quoted cost: net less profit; quoted metal: as issued; quoted solder: as placed',
      'Actual cost: time at each person’s rate of the day, overhead and consumables by the hour, solder and metal out of lots at what the ledger says they cost (oldest first or at the average, as the studio has chosen; a client’s own metal at nothing), metal that came out of no lot at the prices in the settings, both less what was returned, a share of each hallmark packet, and what passes through as quoted',
      'Incidents: the minutes they took were worked and the solder was booked, so both are in it (lost-money shows them apart)',
      'Flux, pickle and gas are in the quoted cost alone; margin is (net − cost) / net',
    ],
    rows,
  };
}

interface Studio {
  timeZone: string;
  currency: string;
}

function rowsOf(db: Db, commissions: readonly CommissionRow[], studio: Studio): Row[] {
  const plannedFor = plannedWork(db, commissions);
  const costOf = actualCosts(
    db,
    commissions.map(({ id }) => id),
  );
  return commissions.map((commission) => rowOf(commission, plannedFor(commission), costOf(commission.id), studio));
}

function rowOf(
  commission: CommissionRow,
  planned: PlannedWork,
  actual: ReturnType<ReturnType<typeof actualCosts>>,
  { timeZone, currency }: Studio,
): Row {
  const quote = planned.quote?.state === 'accepted' ? planned.quote : undefined;
  const boughtMinor = quote ? boughtInMinor(quote.request, actual.costMinor.hallmark > 0) : 0;
  const costMinor = Object.values(actual.costMinor).reduce((total, minor) => total + minor, boughtMinor);
  const isOver = OVER.has(commission.state);
  const knows = quote !== undefined && isOver && actual.unknown.length === 0;
  return {
    commissionId: commission.id,
    number: commission.number,
    title: commission.title,
    kind: commission.kind,
    state: commission.state,
    day: dateInZone(new Date(quote?.answeredAt ?? commission.createdAt), timeZone),
    quoted: {
      quoteNumber: quote?.number ?? null,
      basis: planned.basis,
      minutes: planned.basis === 'none' ? null : round(planned.minutes, 1),
      ...(quote ? quotedOf(quote) : { metalG: null, solderG: null, cost: null, price: null, marginFraction: null }),
    },
    actual: {
      minutes: actual.minutes,
      metalG: actual.metalG,
      solderG: actual.solderG,
      labour: money(actual.costMinor.labour, currency),
      overhead: money(actual.costMinor.overhead, currency),
      consumables: money(actual.costMinor.consumables, currency),
      metal: money(actual.costMinor.metal, currency),
      solder: money(actual.costMinor.solder, currency),
      hallmark: money(actual.costMinor.hallmark, currency),
      boughtIn: money(boughtMinor, currency),
      cost: money(costMinor, currency),
      price: quote ? money(quote.netMinor, quote.currency) : null,
      marginFraction: knows ? marginOf(quote.netMinor, costMinor) : null,
    },
    pieces: actual.pieces.map(({ costMinor: minor, ...piece }) => ({ ...piece, cost: money(minor, currency) })),
    notes: [
      ...planned.notes,
      ...actual.unknown,
      ...(isOver
        ? []
        : [
            commission.state === 'called_off'
              ? 'called off: this is what it took'
              : 'the work is not over: this is what it took so far',
          ]),
      ...(quote && quote.currency !== currency ? [`the quote is in ${quote.currency}, costs are in ${currency}`] : []),
    ],
    entries: { quoteId: quote?.id ?? null, ...actual.entries },
  };
}

function quotedOf({ request, answer, netMinor, currency }: QuoteRow) {
  const costMinor = netMinor - answer.totals.profitMinor;
  // What came with the piece to be mended costs nothing, and nobody issues it.
  const notIssued = new Set(
    request.metals
      .filter(({ price, clientsOwn }) => Number(price.amount) === 0 && !clientsOwn)
      .map(({ id }) => `metal.${id}.issued`),
  );
  const gramsOf = (pattern: RegExp) =>
    round(
      answer.steps
        .filter(({ key }) => pattern.test(key) && !notIssued.has(key))
        .reduce((total, { value }) => total + Number(value), 0),
      4,
    );
  return {
    metalG: gramsOf(/^metal\..+\.issued$/),
    solderG: gramsOf(/^solder\..+\.product$/),
    cost: money(costMinor, currency),
    price: money(netMinor, currency),
    marginFraction: marginOf(netMinor, costMinor),
  };
}

function marginOf(netMinor: number, costMinor: number): number | null {
  return netMinor === 0 ? null : round((netMinor - costMinor) / netMinor, 4);
}

export function quoteAgainstActualCsv({ currency, rows }: Report): string {
  const of = (header: string, value: (row: Row) => Money | null): Column<Row> => ({
    header: `${header}_${currency}`,
    value: (row) => inMajor(value(row)),
  });
  const columns: Column<Row>[] = [
    { header: 'commission', value: ({ number }) => number },
    { header: 'title', value: ({ title }) => title },
    { header: 'state', value: ({ state }) => state },
    { header: 'day', value: ({ day }) => day },
    { header: 'quoted_min', value: ({ quoted }) => quoted.minutes },
    { header: 'actual_min', value: ({ actual }) => actual.minutes },
    { header: 'quoted_metal_g', value: ({ quoted }) => quoted.metalG },
    { header: 'actual_metal_g', value: ({ actual }) => actual.metalG },
    { header: 'quoted_solder_g', value: ({ quoted }) => quoted.solderG },
    { header: 'actual_solder_g', value: ({ actual }) => actual.solderG },
    of('quoted_cost', ({ quoted }) => quoted.cost),
    of('actual_cost', ({ actual }) => actual.cost),
    of('price_net', ({ actual }) => actual.price),
    { header: 'quoted_margin_fraction', value: ({ quoted }) => quoted.marginFraction },
    { header: 'actual_margin_fraction', value: ({ actual }) => actual.marginFraction },
    { header: 'notes', value: ({ notes }) => notes.join('; ') },
  ];
  return csvOf(columns, rows);
}

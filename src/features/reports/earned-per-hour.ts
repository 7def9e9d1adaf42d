import type { z } from 'zod';
import { Decimal } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money } from '../../platform/http/money.ts';
import type { EarnedPerHourReply } from './money-reports.schema.ts';
import { knownResults } from './known-results.ts';
import { round } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

type Report = z.infer<typeof EarnedPerHourReply>;
type Row = Report['rows'][number];

/** What an hour at the bench earned, by the kind of work, best first. */
export function earnedPerHour(db: Db, asked: { now: Date; period: Period }): Report {
  const { currency, rows, leftOut } = knownResults(db, asked);
  const kinds = [...groupBy(rows, ({ kind }) => kind)].map(([kind, own]): Row => {
    const add = (of: (row: (typeof own)[number]) => number) => own.reduce((total, row) => total + of(row), 0);
    const netMinor = add(({ netMinor: minor }) => minor);
    const boughtMinor = add(({ actual }) =>
      [actual.metal, actual.solder, actual.hallmark, actual.boughtIn].reduce((total, { amountMinor }) => total + amountMinor, 0),
    );
    const hours = new Decimal(add(({ actual }) => actual.minutes)).div(60);
    const earned = hours.isZero()
      ? null
      : new Decimal(netMinor - boughtMinor).div(hours).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
    return {
      kind,
      jobs: own.length,
      benchHours: round(hours.toNumber(), 2),
      net: money(netMinor, currency),
      boughtIn: money(boughtMinor, currency),
      netLessBoughtIn: money(netMinor - boughtMinor, currency),
      earnedPerHour: earned === null ? null : money(earned, currency),
      entries: {
        commissionIds: own.map(({ commissionId }) => commissionId),
        quoteIds: own.map(({ entries }) => entries.quoteId),
        benchTimeIds: own.flatMap(({ entries }) => entries.benchTimeIds),
      },
    };
  });
  return {
    report: 'earned-per-hour',
    asOf: asked.now.toISOString(),
    ...asked.period,
    currency,
    about: [
      'Work that is over, with an accepted price and every cost known; its day is that on which the price was accepted',
      'Earned per hour: net of tax, less metal, solder, hallmarks and what passed through, over the hours at the bench',
      ...leftOut,
    ],
    rows: kinds.toSorted((a, b) => (b.earnedPerHour?.amountMinor ?? 0) - (a.earnedPerHour?.amountMinor ?? 0)),
  };
}

export function earnedPerHourCsv({ currency, rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'kind', value: ({ kind }) => kind },
    { header: 'jobs', value: ({ jobs }) => jobs },
    { header: 'bench_h', value: ({ benchHours }) => benchHours },
    { header: `net_${currency}`, value: ({ net }) => inMajor(net) },
    { header: `bought_in_${currency}`, value: ({ boughtIn }) => inMajor(boughtIn) },
    { header: `net_less_bought_in_${currency}`, value: ({ netLessBoughtIn }) => inMajor(netLessBoughtIn) },
    { header: `earned_per_h_${currency}`, value: (row) => inMajor(row.earnedPerHour) },
  ];
  return csvOf(columns, rows);
}

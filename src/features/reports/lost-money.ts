import type { z } from 'zod';
import { minorDigits } from '../../../shared/costing/currency.ts';
import type { LineGroup } from '../../../shared/costing/estimate-request.ts';
import { Decimal, sum } from '../../../shared/decimal.ts';
import { groupBy } from '../../../shared/group-by.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money } from '../../platform/http/money.ts';
import { solderCostPerGOfHeats, toG } from '../stock/index.ts';
import { knownResults, type KnownResult } from './known-results.ts';
import type { LostMoneyReply } from './money-reports.schema.ts';
import { incidentsOn, quotedSums, type QuotedSums } from './money-reports.store.ts';
import { round } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

type Report = z.infer<typeof LostMoneyReply>;
type Row = Report['rows'][number];
type Cause = Row['causes'][number]['cause'];

/** From the profit each commission was planned at to the one it made, cause by cause; the worst first. */
export function lostMoney(db: Db, asked: { now: Date; period: Period }): Report {
  const { currency, rows, leftOut } = knownResults(db, asked);
  const perG = solderCostPerGOfHeats(db);
  const sums = quotedSums(
    db,
    rows.map(({ entries }) => entries.quoteId),
  );
  const ids = rows.map(({ commissionId }) => commissionId);
  const incidents = groupBy(incidentsOn(db, ids), ({ commissionId }) => commissionId);
  return {
    report: 'lost-money',
    asOf: asked.now.toISOString(),
    ...asked.period,
    currency,
    about: [
      'Work that is over, with an accepted price and every cost known',
      'Minutes: planned labour, overhead and consumables less what they came to; rework: of that, the minutes that incidents took, at the same cost a minute, and the solder they used',
      'Not needed: the contingency, and flux, pickle and gas, whose use is not kept by commission',
      ...leftOut,
    ],
    rows: rows
      .map((row) => {
        const quoted = sums.get(row.entries.quoteId)!;
        return rowOf(row, { quoted, incidents: incidents.get(row.commissionId) ?? [], currency, perG });
      })
      .toSorted((a, b) => a.trueProfit.amountMinor - b.trueProfit.amountMinor || a.number.localeCompare(b.number)),
  };
}

/** What a gram of solder cost, by heat. */
type PerG = ReturnType<typeof solderCostPerGOfHeats>;

interface Known {
  quoted: QuotedSums;
  incidents: Incidents;
  currency: string;
  perG: PerG;
}

function rowOf(result: KnownResult, { quoted, incidents, currency, perG }: Known): Row {
  const { totals } = quoted;
  const passMinor = totals.netMinor - totals.profitMinor - totals.makingCostMinor;
  const plannedMinor = totals.netBeforeDiscountMinor - totals.makingCostMinor - passMinor;
  const trueMinor = result.netMinor - result.actual.cost.amountMinor;
  const causes = causesOf(result, { quoted, passMinor, incidents, currency, perG });
  const worst = causes.toSorted((a, b) => a.minor - b.minor)[0];
  return {
    commissionId: result.commissionId,
    number: result.number,
    title: result.title,
    day: result.day,
    lost: trueMinor < 0,
    plannedProfit: money(plannedMinor, currency),
    plannedMarginFraction: shareOf(plannedMinor, totals.netBeforeDiscountMinor),
    trueProfit: money(trueMinor, currency),
    trueMarginFraction: shareOf(trueMinor, result.netMinor),
    largestCause: worst && worst.minor < 0 ? worst.cause : null,
    causes: causes.map(({ cause, minor }) => ({ cause, amount: money(minor, currency) })),
    entries: { ...result.entries, incidentIds: incidents.map(({ id }) => id) },
  };
}

type Incidents = ReturnType<typeof incidentsOn>;

function causesOf(
  { actual }: KnownResult,
  { quoted: { totals, lines }, passMinor, incidents, currency, perG }: Known & { passMinor: number },
): { cause: Cause; minor: number }[] {
  const planned = (...groups: LineGroup[]) =>
    lines.filter(({ group }) => groups.includes(group)).reduce((total, { amountMinor }) => total + amountMinor, 0);
  const timeMinor = actual.labour.amountMinor + actual.overhead.amountMinor + actual.consumables.amountMinor;
  const rework = reworkMinor(
    { timeMinor, minutes: actual.minutes, solderMinor: actual.solder.amountMinor },
    { incidents, currency, perG },
  );
  return [
    { cause: 'discount', minor: totals.netMinor - totals.netBeforeDiscountMinor },
    { cause: 'minutes', minor: planned('labour', 'overhead', 'consumables') - (timeMinor - rework.time) },
    { cause: 'rework', minor: -(rework.time + rework.solder) },
    { cause: 'metal', minor: planned('metal', 'scrap_credit') - actual.metal.amountMinor },
    { cause: 'solder', minor: planned('solder') - (actual.solder.amountMinor - rework.solder) },
    { cause: 'bought_in', minor: passMinor - actual.boughtIn.amountMinor - actual.hallmark.amountMinor },
    { cause: 'not_needed', minor: planned('flux', 'pickle', 'gas') + totals.contingencyMinor },
  ];
}

/** Never more than what was really worked and used: an incident's own figures are what its finder thinks it took. */
function reworkMinor(
  { timeMinor, minutes, solderMinor }: { timeMinor: number; minutes: number; solderMinor: number },
  { incidents, currency, perG }: { incidents: Incidents; currency: string; perG: PerG },
): { time: number; solder: number } {
  const lost = Math.min(
    minutes,
    incidents.reduce((total, { minutesLost }) => total + (minutesLost ?? 0), 0),
  );
  const time = minutes === 0 ? new Decimal(0) : new Decimal(timeMinor).times(lost).div(minutes);
  const solder = sum(
    incidents.map(({ heatId, solderTenthMg }) =>
      ((heatId === null ? undefined : perG(heatId)) ?? new Decimal(0)).times(toG(solderTenthMg ?? 0)),
    ),
  );
  const digits = new Decimal(10).pow(minorDigits(currency));
  return { time: whole(time), solder: Math.min(solderMinor, whole(solder.times(digits))) };
}

function whole(exact: Decimal): number {
  return exact.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
}

function shareOf(minor: number, ofMinor: number): number | null {
  return ofMinor === 0 ? null : round(minor / ofMinor, 4);
}

export function lostMoneyCsv({ currency, rows }: Report): string {
  const of = (cause: Cause): Column<Row> => ({
    header: `${cause}_${currency}`,
    value: ({ causes }) => inMajor(causes.find((one) => one.cause === cause)?.amount),
  });
  const columns: Column<Row>[] = [
    { header: 'commission', value: ({ number }) => number },
    { header: 'title', value: ({ title }) => title },
    { header: 'day', value: ({ day }) => day },
    { header: `planned_profit_${currency}`, value: ({ plannedProfit }) => inMajor(plannedProfit) },
    { header: 'planned_margin_fraction', value: ({ plannedMarginFraction }) => plannedMarginFraction },
    ...(['discount', 'minutes', 'rework', 'metal', 'solder', 'bought_in', 'not_needed'] as const).map(of),
    { header: `true_profit_${currency}`, value: ({ trueProfit }) => inMajor(trueProfit) },
    { header: 'true_margin_fraction', value: ({ trueMarginFraction }) => trueMarginFraction },
    { header: 'largest_cause', value: ({ largestCause }) => largestCause },
  ];
  return csvOf(columns, rows);
}

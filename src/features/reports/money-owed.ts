import type { z } from 'zod';
import { dateInZone, daysBetween } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, inMajor, type Column } from '../../platform/http/csv.ts';
import { money } from '../../platform/http/money.ts';
import { accountOf, showAccount, type CommissionRow } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import type { MoneyOwedReply } from './money-reports.schema.ts';
import { acceptedVersion, moneyOn, paymentsOf } from './money-reports.store.ts';
import { within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

type Report = z.infer<typeof MoneyOwedReply>;
type Row = Report['rows'][number];

const OVER = ['handed_over', 'settled'];
const NOT_BEGUN = new Set(['asked', 'shaping', 'offered', 'gone_quiet', 'agreed']);

/** Who owes us and whom we owe, oldest first, and deposits on work that is not begun. */
export function moneyOwed(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone, currency } = getSettings(db);
  const at = { timeZone, today: dateInZone(now, timeZone) };
  const rows = moneyOn(db, OVER)
    .map(({ commission, client }) => rowOf(db, commission, { client, ...at }))
    .filter(({ balance, depositNotBegun }) => balance.amountMinor !== 0 || (depositNotBegun?.amountMinor ?? 0) !== 0)
    .filter(({ day }) => within(day, period))
    .toSorted((a, b) => b.ageDays - a.ageDays || a.number.localeCompare(b.number));
  const own = rows.filter(({ balance }) => balance.currency === currency);
  const total = (of: (row: Row) => number) =>
    money(
      own.reduce((sum, row) => sum + of(row), 0),
      currency,
    );
  return {
    report: 'money-owed',
    asOf: now.toISOString(),
    ...period,
    currency,
    about: [
      'Balance: gross of the accepted version less everything received; once called off nothing more is due, and what was received is the open question',
      'Its day is that on which the price was accepted, or else that of the first payment; the age counts from there',
      ...(own.length < rows.length
        ? [`Totals are in ${currency} alone: ${rows.length - own.length} rows are in another currency`]
        : []),
    ],
    owedToUs: total(({ balance }) => Math.max(0, balance.amountMinor)),
    weOwe: total(({ balance }) => Math.max(0, -balance.amountMinor)),
    depositsNotBegun: total(({ depositNotBegun }) => depositNotBegun?.amountMinor ?? 0),
    rows,
  };
}

function rowOf(
  db: Db,
  commission: CommissionRow,
  { client, timeZone, today }: { client: string | null; timeZone: string; today: string },
): Row {
  const { gross, received, balance } = showAccount(accountOf(db, commission.id));
  const quote = acceptedVersion(db, commission.id);
  const paid = paymentsOf(db, commission.id);
  const answeredAt = quote?.answeredAt ?? null;
  const day =
    answeredAt === null
      ? (paid.at(-1)?.receivedOn ?? dateInZone(new Date(commission.createdAt), timeZone))
      : dateInZone(new Date(answeredAt), timeZone);
  return {
    commissionId: commission.id,
    number: commission.number,
    title: commission.title,
    client,
    state: commission.state,
    day,
    ageDays: daysBetween(day, today),
    gross,
    received,
    balance,
    depositNotBegun: NOT_BEGUN.has(commission.state) ? received : null,
    entries: { quoteId: quote?.id ?? null, paymentIds: paid.map(({ id }) => id) },
  };
}

export function moneyOwedCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'commission', value: ({ number }) => number },
    { header: 'title', value: ({ title }) => title },
    { header: 'client', value: ({ client }) => client },
    { header: 'state', value: ({ state }) => state },
    { header: 'day', value: ({ day }) => day },
    { header: 'age_days', value: ({ ageDays }) => ageDays },
    { header: 'currency', value: ({ balance }) => balance.currency },
    { header: 'gross_in_currency', value: ({ gross }) => inMajor(gross) },
    { header: 'received_in_currency', value: ({ received }) => inMajor(received) },
    { header: 'balance_in_currency', value: ({ balance }) => inMajor(balance) },
    { header: 'deposit_not_begun_in_currency', value: ({ depositNotBegun }) => inMajor(depositNotBegun) },
  ];
  return csvOf(columns, rows);
}

import type { z } from 'zod';
import { groupBy } from '../../../shared/group-by.ts';
import { median } from '../../../shared/learning/median.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { getSettings } from '../settings/index.ts';
import type { QuoteOutcomesReply } from './money-reports.schema.ts';
import { sentVersions, type QuoteRow } from './money-reports.store.ts';
import { round, within, momentsOf } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';

type Report = z.infer<typeof QuoteOutcomesReply>;
type Row = Report['rows'][number];

const DAY_MS = 86_400_000;

/** What became of the versions that were sent, by the month they were sent in. */
export function quoteOutcomes(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone } = getSettings(db);
  const sent = sentVersions(db, momentsOf(period, timeZone))
    .map((quote) => ({ quote, day: dateInZone(new Date(quote.sentAt!), timeZone) }))
    .filter(({ day }) => within(day, period));
  return {
    report: 'quote-outcomes',
    asOf: now.toISOString(),
    ...period,
    about: [
      'Every version that was sent counts once, in the month it was sent; one that was accepted and replaced later was accepted',
      'Accepted share: of those that were accepted, declined or lapsed; median days: from sent to the yes or no',
    ],
    rows: [...groupBy(sent, ({ day }) => day.slice(0, 7))]
      .map(([month, own]) =>
        rowOf(
          month,
          own.map(({ quote }) => quote),
        ),
      )
      .toSorted((a, b) => a.month.localeCompare(b.month)),
  };
}

function rowOf(month: string, quotes: QuoteRow[]): Row {
  const accepted = quotes.filter(wasAccepted);
  const inState = (...states: string[]) => quotes.filter((quote) => !wasAccepted(quote) && states.includes(quote.state)).length;
  const [declined, lapsed] = [inState('declined'), inState('lapsed')];
  const answered = accepted.length + declined + lapsed;
  const days = quotes.flatMap(({ sentAt, answeredAt }) =>
    answeredAt === null ? [] : [(Date.parse(answeredAt) - Date.parse(sentAt!)) / DAY_MS],
  );
  return {
    month,
    sent: quotes.length,
    accepted: accepted.length,
    declined,
    lapsed,
    replaced: inState('replaced', 'withdrawn'),
    open: inState('sent'),
    acceptedFraction: answered === 0 ? null : round(accepted.length / answered, 4),
    medianDays: days.length === 0 ? null : round(median(days), 1),
    medianDiscountFraction: round(median(quotes.map(({ request }) => request.policy.discountFraction ?? 0)), 4),
    entries: { quoteIds: quotes.map(({ id }) => id) },
  };
}

/** Replaced by a change agreed later, it has had its yes all the same. */
function wasAccepted({ state, answeredAt }: QuoteRow): boolean {
  return state === 'accepted' || (state === 'replaced' && answeredAt !== null);
}

export function quoteOutcomesCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'month', value: ({ month }) => month },
    { header: 'sent', value: ({ sent }) => sent },
    { header: 'accepted', value: ({ accepted }) => accepted },
    { header: 'declined', value: ({ declined }) => declined },
    { header: 'lapsed', value: ({ lapsed }) => lapsed },
    { header: 'replaced_or_withdrawn', value: ({ replaced }) => replaced },
    { header: 'open', value: ({ open }) => open },
    { header: 'accepted_fraction', value: ({ acceptedFraction }) => acceptedFraction },
    { header: 'median_days', value: ({ medianDays }) => medianDays },
    { header: 'median_discount_fraction', value: ({ medianDiscountFraction }) => medianDiscountFraction },
  ];
  return csvOf(columns, rows);
}

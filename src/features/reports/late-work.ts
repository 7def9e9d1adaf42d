import type { z } from 'zod';
import { dateInZone, daysBetween } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { lettersOf } from '../client-letters/index.ts';
import { getSettings } from '../settings/index.ts';
import { capacityOf } from '../studio-days/index.ts';
import { openJobs } from './bench-load-report.ts';
import { benchLoad } from './bench-load.ts';
import type { LateWorkReply } from './bench-reports.schema.ts';
import { quotesSent, stateSinceOf } from './bench-reports.store.ts';
import { round, within } from './report-numbers.ts';
import type { Period } from './reports.schema.ts';
import { waitSentence, withWaits } from './waiting-jobs.ts';

type Report = z.infer<typeof LateWorkReply>;
type Row = Report['rows'][number];

/** What is past its date, or has less than a day to spare, the longest late first. */
export function lateWork(db: Db, { now, period }: { now: Date; period: Period }): Report {
  const { timeZone } = getSettings(db);
  const today = dateInZone(now, timeZone);
  const { minutesOn, minutesPerDay } = capacityOf(db);
  const jobs = withWaits(db, openJobs(db), { today });
  const loads = benchLoad(jobs, { today, minutesOn });
  const rows = jobs.flatMap((job, index): Row[] => {
    const { slackMinutes, finishesOn, lateDays } = loads[index]!;
    if (job.dueOn === null || slackMinutes === null) return [];
    const late = today > job.dueOn;
    if (!late && slackMinutes >= minutesPerDay && lateDays === 0) return [];
    const { commissionId, number, title, state, dueOn, waitingFor, notes, waits } = job;
    return [
      {
        commissionId,
        number,
        title,
        state,
        dueOn,
        late,
        days: daysBetween(dueOn, today),
        slackMinutes: round(slackMinutes, 1),
        finishesOn,
        waitingFor,
        waitingSince: waitingFor === null ? null : dateInZone(new Date(stateSinceOf(db, commissionId)), timeZone),
        ...lastWord(db, commissionId, timeZone),
        notes: [...notes, ...waits.map(waitSentence)],
      },
    ];
  });
  return {
    report: 'late-work',
    asOf: now.toISOString(),
    ...period,
    today,
    about: [
      'Promised and not yet made, by the due date; late: the day has passed; about to be: less than a day of all benches is to spare, all that is due before it worked first, or it ends after its day for want of solder or metal',
      'Last word: the last quote that was sent, or what was noted of letters and talks',
    ],
    rows: rows
      .filter(({ dueOn }) => within(dueOn, period))
      .toSorted((a, b) => b.days - a.days || a.slackMinutes - b.slackMinutes || a.number.localeCompare(b.number)),
  };
}

function lastWord(db: Db, commissionId: string, timeZone: string): Pick<Row, 'lastWord' | 'entries'> {
  const letters = lettersOf(db, commissionId);
  const quotes = quotesSent(db, commissionId);
  const words = [
    ...quotes.map(({ sentAt, number }) => ({ on: dateInZone(new Date(sentAt), timeZone), what: `quote ${number}` })),
    ...letters.map(({ sentOn, kind, how }) => ({ on: sentOn, what: `${kind}, ${how}`.replaceAll('_', ' ') })),
  ];
  return {
    // Of one day, the letter came after the quote.
    lastWord: words.toSorted((a, b) => a.on.localeCompare(b.on)).at(-1) ?? null,
    entries: { letterIds: letters.map(({ id }) => id), quoteIds: quotes.map(({ id }) => id) },
  };
}

export function lateWorkCsv({ rows }: Report): string {
  const columns: Column<Row>[] = [
    { header: 'commission', value: ({ number }) => number },
    { header: 'title', value: ({ title }) => title },
    { header: 'state', value: ({ state }) => state },
    { header: 'due_on', value: ({ dueOn }) => dueOn },
    { header: 'late', value: ({ late }) => (late ? 'yes' : 'no') },
    { header: 'days_since_due', value: ({ days }) => days },
    { header: 'slack_min', value: ({ slackMinutes }) => slackMinutes },
    { header: 'finishes_on', value: ({ finishesOn }) => finishesOn },
    { header: 'waiting_for', value: ({ waitingFor }) => waitingFor },
    { header: 'waiting_since', value: ({ waitingSince }) => waitingSince },
    { header: 'last_word_on', value: (row) => row.lastWord?.on },
    { header: 'last_word', value: (row) => row.lastWord?.what },
    { header: 'notes', value: ({ notes }) => notes.join('; ') },
  ];
  return csvOf(columns, rows);
}

import type { z } from 'zod';
import { groupBy } from '../../../shared/group-by.ts';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { csvOf, type Column } from '../../platform/http/csv.ts';
import { timesOf } from '../commissions/index.ts';
import { getSettings } from '../settings/index.ts';
import { capacityOf } from '../studio-days/index.ts';
import { benchLoad, dayLoads } from './bench-load.ts';
import { plannedWork, type PlannedWork } from './planned-work.ts';
import type { BenchLoadReply, Period } from './reports.schema.ts';
import { commissionsInStates, type CommissionRow } from './reports.store.ts';
import { round, within } from './report-numbers.ts';
import { waitSentence, withWaits } from './waiting-jobs.ts';

type BenchLoad = z.infer<typeof BenchLoadReply>;
type Row = BenchLoad['rows'][number];

/** So many coming days are told one by one: eight weeks. */
const DAYS_AHEAD = 56;

/** What is promised and not yet made, earliest due first, against the minutes the benches have. */
export function benchLoadReport(db: Db, { now, period }: { now: Date; period: Period }): BenchLoad {
  const today = dateInZone(now, getSettings(db).timeZone);
  const { minutesOn, minutesPerDay, benches, about } = capacityOf(db);
  const waiting = withWaits(db, openJobs(db), { today });
  const loads = benchLoad(waiting, { today, minutesOn });
  const jobs = waiting.map(({ waits, readyOn: _readyOn, notes, ...job }) => ({
    ...job,
    notes: [...notes, ...waits.map(waitSentence)],
  }));
  const rows: Row[] = jobs.map((job, index) => {
    const { runningMinutes, loadFraction, slackMinutes, ...load } = loads[index]!;
    return {
      ...job,
      ...load,
      runningMinutes: round(runningMinutes, 1),
      slackMinutes: slackMinutes === null ? null : round(slackMinutes, 1),
      loadFraction: loadFraction === null ? null : round(loadFraction, 4),
    };
  });
  return {
    report: 'bench-load',
    asOf: now.toISOString(),
    ...period,
    today,
    minutesPerDay,
    benches,
    about: [
      ...about,
      'Left: what the work stays under eight times in ten, by what was learned of each operation, less what is done',
      'What waits for solder or metal that is short is finished no sooner than that comes; the rest is worked meanwhile',
      'Done: spans that ended, without those in doubt and those on scrapped pieces',
    ],
    rows: rows.filter(({ dueOn }) => within(dueOn, period)),
    days: dayLoads(waiting, { today, minutesOn, count: DAYS_AHEAD }).map(({ on, capacityMinutes, takenMinutes, worked }) => ({
      on,
      capacityMinutes: round(capacityMinutes, 1),
      takenMinutes: round(takenMinutes, 1),
      jobs: worked.map(({ place, minutes }) => ({
        commissionId: waiting[place]!.commissionId,
        number: waiting[place]!.number,
        minutes: round(minutes, 1),
      })),
    })),
  };
}

/** What is promised and not yet made, earliest due first, undated last. */
export function openJobs(db: Db) {
  const open = commissionsInStates(db, ['agreed', 'on_bench', 'resting']);
  const plannedFor = plannedWork(db, open);
  const ids = open.map(({ id }) => id);
  const times = groupBy(timesOf(db, ids), ({ commissionId }) => commissionId);
  return open
    .map((commission) => jobOf(commission, plannedFor(commission), times.get(commission.id) ?? []))
    .toSorted((a, b) => (a.dueOn ?? 'none').localeCompare(b.dueOn ?? 'none') || a.number.localeCompare(b.number));
}

function jobOf(
  { id, number, title, state, dueOn, waitingFor }: CommissionRow,
  { minutes, eightInTenMinutes, basis, notes, quote }: PlannedWork,
  worked: ReturnType<typeof timesOf>,
) {
  const times = worked.filter(({ pieceState }) => pieceState !== 'scrapped');
  const doneMinutes = round(
    times.reduce((total, time) => total + time.minutes, 0),
    1,
  );
  const plannedMinutes = round(minutes, 1);
  return {
    commissionId: id,
    number,
    title,
    state,
    waitingFor,
    dueOn,
    basis,
    plannedMinutes,
    eightInTenMinutes: round(eightInTenMinutes, 1),
    doneMinutes,
    // A date is told by the minutes under which the work stays eight times in ten.
    minutesLeft: Math.max(0, round(eightInTenMinutes - doneMinutes, 1)),
    notes: [
      ...notes,
      ...(basis !== 'none' && doneMinutes > eightInTenMinutes
        ? ['more was done than planned: what is left is not known, and counts as none']
        : []),
      ...(dueOn === null ? ['no date is promised: it comes last'] : []),
    ],
    entries: { quoteId: quote?.id ?? null, benchTimeIds: times.map((time) => time.id) },
  };
}

export function benchLoadCsv({ rows }: BenchLoad): string {
  const columns: Column<Row>[] = [
    { header: 'commission', value: ({ number }) => number },
    { header: 'title', value: ({ title }) => title },
    { header: 'state', value: ({ state }) => state },
    { header: 'due_on', value: ({ dueOn }) => dueOn },
    { header: 'planned_min', value: ({ plannedMinutes }) => plannedMinutes },
    { header: 'eight_in_ten_min', value: ({ eightInTenMinutes }) => eightInTenMinutes },
    { header: 'done_min', value: ({ doneMinutes }) => doneMinutes },
    { header: 'left_min', value: ({ minutesLeft }) => minutesLeft },
    { header: 'running_min', value: ({ runningMinutes }) => runningMinutes },
    { header: 'working_days', value: ({ workingDays }) => workingDays },
    { header: 'capacity_min', value: ({ capacityMinutes }) => capacityMinutes },
    { header: 'load_fraction', value: ({ loadFraction }) => loadFraction },
    { header: 'finishes_on', value: ({ finishesOn }) => finishesOn },
    { header: 'slack_min', value: ({ slackMinutes }) => slackMinutes },
    { header: 'late_days', value: ({ lateDays }) => lateDays },
    { header: 'notes', value: ({ notes }) => notes.join('; ') },
  ];
  return csvOf(columns, rows);
}

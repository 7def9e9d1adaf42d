import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { invalidFields } from '../../platform/http/problem.ts';
import { getSettings } from '../settings/index.ts';
import { capacityOf } from '../studio-days/index.ts';
import { benchLoad, type JobLoad } from './bench-load.ts';
import { openJobs } from './bench-load-report.ts';
import type { DueDateQuery, DueDateReply } from './due-date.schema.ts';
import { round } from './report-numbers.ts';
import { commissionExists } from './reports.store.ts';
import { waitSentence, withWaits } from './waiting-jobs.ts';

type Answer = z.infer<typeof DueDateReply>;

/** Whether one more job can be done by a date, beside all that is promised, and whom it would make late. */
export function dueDateAnswer(db: Db, { dueOn, minutes, commissionId }: z.infer<typeof DueDateQuery>, now: Date): Answer {
  const today = dateInZone(now, getSettings(db).timeZone);
  const { minutesOn, about } = capacityOf(db);
  const open = openJobs(db);
  const promised = open.filter((job) => job.commissionId !== commissionId);
  if (commissionId !== undefined) mustBeThere(db, commissionId);
  // It comes after what is promised for the same day.
  const place = promised.filter((job) => job.dueOn !== null && job.dueOn <= dueOn).length;
  const asked = { commissionId: commissionId ?? null, number: '', dueOn, minutesLeft: minutes };
  const notHeld = promised.length === open.length ? commissionId : undefined;
  const jobs = withWaits(db, [...promised.slice(0, place), asked, ...promised.slice(place)], { today, notHeld });
  const without = withWaits(db, promised, { today });
  const before = benchLoad(without, { today, minutesOn });
  const loads = benchLoad(jobs, { today, minutesOn });
  const { finishesOn, slackMinutes, lateDays, runningMinutes, capacityMinutes } = loads[place]!;
  const madeLate = promised.slice(place).flatMap(({ number, dueOn: due }, index) => {
    const late = loads[place + 1 + index]!.lateDays ?? 0;
    return late > (before[place + index]!.lateDays ?? 0) ? [{ number, dueOn: due, lateDays: late }] : [];
  });
  const somethingWaits = jobs.some(({ readyOn }) => readyOn !== null);
  const canBeDone = slackMinutes !== null && slackMinutes >= 0 && !(somethingWaits && lateDays !== 0);
  const { waits, readyOn } = jobs[place]!;
  return {
    canBeDone,
    says: [
      sentence({ canBeDone, slackMinutes, finishesOn, lateDays }),
      ...waits.map(waitSentence),
      ...madeLate.map(lateSentence),
    ].join('; '),
    dueOn,
    finishesOn,
    slackMinutes: round(slackMinutes ?? 0, 1),
    lateDays,
    runningMinutes: round(runningMinutes, 1),
    capacityMinutes: round(capacityMinutes ?? 0, 1),
    readyOn,
    waits,
    madeLate,
    about: [
      ...about,
      'What is promised is worked first where it is due on the same day or before',
      commissionId === undefined
        ? 'Solder and metal of this work are not known: name its commission to have them looked at'
        : 'What is short is waited for: until the day promised, else the lead time; the rest of the work goes on meanwhile',
    ],
  };
}

function mustBeThere(db: Db, commissionId: string): void {
  if (!commissionExists(db, commissionId))
    throw invalidFields([{ pointer: '/commissionId', detail: 'There is no such commission.', given: commissionId }]);
}

function sentence({
  canBeDone,
  slackMinutes,
  finishesOn,
  lateDays,
}: Pick<JobLoad, 'slackMinutes' | 'finishesOn' | 'lateDays'> & { canBeDone: boolean }): string {
  if (canBeDone) return `Yes, with ${inHours(slackMinutes ?? 0)} to spare`;
  if (finishesOn === null) return 'No: there are not so many minutes at the benches in three years';
  if (!lateDays) return `No: ${inHours(-(slackMinutes ?? 0))} are missing`;
  return lateDays === 1 ? `No, a day late: finished on ${finishesOn}` : `No, ${lateDays} days late: finished on ${finishesOn}`;
}

function lateSentence({ number, lateDays }: Answer['madeLate'][number]): string {
  return lateDays === 1 ? `it would make ${number} a day late` : `it would make ${number} ${lateDays} days late`;
}

/** 220 as "3 h 40". */
function inHours(minutes: number): string {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${String(rest).padStart(2, '0')}`;
}

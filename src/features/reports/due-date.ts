import type { z } from 'zod';
import { dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import { capacityOf } from '../studio-days/index.ts';
import { benchLoad, type JobLoad } from './bench-load.ts';
import { openJobs } from './bench-load-report.ts';
import type { DueDateQuery, DueDateReply } from './due-date.schema.ts';
import { round } from './report-numbers.ts';

type Answer = z.infer<typeof DueDateReply>;

/** Whether one more job can be done by a date, beside all that is promised, and whom it would make late. */
export function dueDateAnswer(db: Db, { dueOn, minutes }: z.infer<typeof DueDateQuery>, now: Date): Answer {
  const today = dateInZone(now, getSettings(db).timeZone);
  const { minutesOn, about } = capacityOf(db);
  const jobs = openJobs(db);
  // It comes after what is promised for the same day.
  const place = jobs.filter((job) => job.dueOn !== null && job.dueOn <= dueOn).length;
  const before = benchLoad(jobs, { today, minutesOn });
  const loads = benchLoad([...jobs.slice(0, place), { dueOn, minutesLeft: minutes }, ...jobs.slice(place)], { today, minutesOn });
  const { finishesOn, slackMinutes, lateDays, runningMinutes, capacityMinutes } = loads[place]!;
  const madeLate = jobs.slice(place).flatMap(({ number, dueOn: due }, index) => {
    const late = loads[place + 1 + index]!.lateDays ?? 0;
    return late > (before[place + index]!.lateDays ?? 0) ? [{ number, dueOn: due, lateDays: late }] : [];
  });
  const canBeDone = slackMinutes !== null && slackMinutes >= 0;
  return {
    canBeDone,
    says: [sentence({ slackMinutes, finishesOn, lateDays }), ...madeLate.map(lateSentence)].join('; '),
    dueOn,
    finishesOn,
    slackMinutes: round(slackMinutes ?? 0, 1),
    lateDays,
    runningMinutes: round(runningMinutes, 1),
    capacityMinutes: round(capacityMinutes ?? 0, 1),
    madeLate,
    about: [...about, 'What is promised is worked first where it is due on the same day or before'],
  };
}

function sentence({ slackMinutes, finishesOn, lateDays }: Pick<JobLoad, 'slackMinutes' | 'finishesOn' | 'lateDays'>): string {
  if (slackMinutes !== null && slackMinutes >= 0) return `Yes, with ${inHours(slackMinutes)} to spare`;
  if (finishesOn === null) return 'No: there are not so many minutes at the benches in three years';
  return lateDays
    ? `No, ${inDays(lateDays)} late: finished on ${finishesOn}`
    : `No: ${inHours(-(slackMinutes ?? 0))} are missing`;
}

function lateSentence({ number, lateDays }: Answer['madeLate'][number]): string {
  return `it would make ${number} ${inDays(lateDays)} late`;
}

function inDays(days: number): string {
  return days === 1 ? 'a day' : `${days} days`;
}

/** 220 as "3 h 40". */
function inHours(minutes: number): string {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${String(rest).padStart(2, '0')}`;
}

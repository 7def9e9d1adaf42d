import { addDays, daysBetween } from '../../platform/clock.ts';

export interface LoadJob {
  /** The last day it may be finished on; null: no date is promised. */
  dueOn: string | null;
  minutesLeft: number;
  /** The day from which on all that it needs is there; without one, it is there. */
  readyOn?: string | null;
}

export interface JobLoad {
  runningMinutes: number;
  /** Days to the due date on which there is anybody at a bench, today and it included; null without a date. */
  workingDays: number | null;
  capacityMinutes: number | null;
  /** Running minutes as a share of the capacity; over 1: not in time. Null where there is no capacity to share. */
  loadFraction: number | null;
  finishesOn: string | null;
  /** Minutes to spare by the due date; below 0: so many are missing. */
  slackMinutes: number | null;
  /** Days on the wall between due and finished, 0 when in time. */
  lateDays: number | null;
}

export interface BenchDays {
  today: string;
  /** Minutes that all benches together have on a day. */
  minutesOn: (day: string) => number;
}

/** So far ahead is looked for an end: the longest a due date may be away, three years. */
const MOST_DAYS = 1095;

/**
 * Whether jobs are finished by their dates when the earliest due is worked first, all benches on one job after the other. A job that
 * waits for solder or metal is taken up on the day that comes, and until then the next is worked.
 *
 * @param jobs earliest due first, undated last
 */
export function benchLoad(jobs: readonly LoadJob[], { today, minutesOn }: BenchDays): JobLoad[] {
  let runningMinutes = 0;
  const ends = finishDays(jobs, { today, minutesOn });
  return jobs.map(({ dueOn, minutesLeft, readyOn }, place) => {
    runningMinutes += minutesLeft;
    const days = dueOn === null ? null : daysFrom(today, dueOn).map(minutesOn);
    const capacityMinutes = days && total(days);
    const sinceReady = () =>
      dueOn === null || !readyOn || readyOn <= today ? Infinity : total(daysFrom(readyOn, dueOn).map(minutesOn));
    const finishesOn = ends[place] ?? null;
    return {
      runningMinutes,
      workingDays: days && days.filter((minutes) => minutes > 0).length,
      capacityMinutes,
      loadFraction: capacityMinutes ? runningMinutes / capacityMinutes : null,
      finishesOn,
      slackMinutes: capacityMinutes === null ? null : Math.min(capacityMinutes - runningMinutes, sinceReady() - minutesLeft),
      lateDays: dueOn === null || finishesOn === null ? null : Math.max(0, daysBetween(dueOn, finishesOn)),
    };
  });
}

/** Both days included; none where the last is past. */
function daysFrom(today: string, last: string): string[] {
  const count = Math.min(MOST_DAYS, daysBetween(today, last)) + 1;
  return Array.from({ length: Math.max(0, count) }, (_, index) => addDays(today, index));
}

/** The day by whose end each is finished; null: not in as long as is looked ahead. */
function finishDays(jobs: readonly LoadJob[], { today, minutesOn }: BenchDays): (string | null)[] {
  const left = jobs.map(({ minutesLeft }): number | null => minutesLeft);
  const ends = jobs.map((): string | null => null);
  for (let index = 0; index <= MOST_DAYS && ends.includes(null); index++) {
    const day = addDays(today, index);
    for (const { place } of workedOn(jobs, left, { day, minutes: minutesOn(day) })) if (left[place] === null) ends[place] = day;
  }
  return ends;
}

export interface DayLoad {
  on: string;
  capacityMinutes: number;
  takenMinutes: number;
  /** Places in the list of jobs of those worked that day, and how long. */
  worked: { place: number; minutes: number }[];
}

/**
 * What of each coming day is taken when the jobs are worked as benchLoad() works them.
 *
 * @param jobs earliest due first, undated last
 * @param count days on the calendar, today the first
 */
export function dayLoads(jobs: readonly LoadJob[], { today, minutesOn, count }: BenchDays & { count: number }): DayLoad[] {
  const left = jobs.map(({ minutesLeft }): number | null => minutesLeft);
  return Array.from({ length: count }, (_, index) => {
    const on = addDays(today, index);
    const capacityMinutes = minutesOn(on);
    const worked = workedOn(jobs, left, { day: on, minutes: capacityMinutes }).filter(({ minutes }) => minutes > 0);
    return { on, capacityMinutes, takenMinutes: total(worked.map(({ minutes }) => minutes)), worked };
  });
}

/** What is worked on a day, in order; takes it off what is left, which is null once a job is finished. */
function workedOn(
  jobs: readonly LoadJob[],
  left: (number | null)[],
  { day, minutes }: { day: string; minutes: number },
): DayLoad['worked'] {
  const worked: DayLoad['worked'] = [];
  let free = minutes;
  if (free <= 0) return worked;
  for (const [place, { readyOn }] of jobs.entries()) {
    const before = left[place]!;
    if (before === null || (readyOn && readyOn > day)) continue;
    const taken = Math.min(free, before);
    worked.push({ place, minutes: taken });
    free -= taken;
    left[place] = before - taken > LAST_BITS ? before - taken : null;
    if (left[place] !== null) break;
  }
  return worked;
}

/** Minutes that the last bits of doubles leave over. */
const LAST_BITS = 1e-6;

function total(minutes: readonly number[]): number {
  return minutes.reduce((sum, one) => sum + one, 0);
}

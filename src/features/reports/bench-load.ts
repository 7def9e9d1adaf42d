import { addDays, daysBetween } from '../../platform/clock.ts';

export interface LoadJob {
  /** The last day it may be finished on; null: no date is promised. */
  dueOn: string | null;
  minutesLeft: number;
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
 * Whether jobs are finished by their dates when the earliest due is worked first, all benches on one job after the other.
 *
 * @param jobs earliest due first, undated last
 */
export function benchLoad(jobs: readonly LoadJob[], { today, minutesOn }: BenchDays): JobLoad[] {
  let runningMinutes = 0;
  return jobs.map(({ dueOn, minutesLeft }) => {
    runningMinutes += minutesLeft;
    const days = dueOn === null ? null : daysFrom(today, dueOn).map(minutesOn);
    const capacityMinutes = days && days.reduce((sum, minutes) => sum + minutes, 0);
    const finishesOn = finish(runningMinutes, { today, minutesOn });
    return {
      runningMinutes,
      workingDays: days && days.filter((minutes) => minutes > 0).length,
      capacityMinutes,
      loadFraction: capacityMinutes ? runningMinutes / capacityMinutes : null,
      finishesOn,
      slackMinutes: capacityMinutes === null ? null : capacityMinutes - runningMinutes,
      lateDays: dueOn === null || finishesOn === null ? null : Math.max(0, daysBetween(dueOn, finishesOn)),
    };
  });
}

/** Both days included; none where the last is past. */
function daysFrom(today: string, last: string): string[] {
  const count = Math.min(MOST_DAYS, daysBetween(today, last)) + 1;
  return Array.from({ length: Math.max(0, count) }, (_, index) => addDays(today, index));
}

/** The first day by whose end so many minutes were worked. */
function finish(minutes: number, { today, minutesOn }: BenchDays): string | null {
  let worked = 0;
  for (let index = 0; index <= MOST_DAYS; index++) {
    const day = addDays(today, index);
    const ofDay = minutesOn(day);
    worked += ofDay;
    if (ofDay > 0 && worked >= minutes) return day;
  }
  return null;
}

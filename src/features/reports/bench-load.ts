import { addDays, daysBetween } from '../../platform/clock.ts';

export interface LoadJob {
  /** The last day it may be finished on; null: no date is promised. */
  dueOn: string | null;
  minutesLeft: number;
}

export interface JobLoad {
  runningMinutes: number;
  /** Days to the due date, today and it included; null without a date. */
  workingDays: number | null;
  capacityMinutes: number | null;
  /** Running minutes as a share of the capacity; over 1: not in time. Null where there is no capacity to share. */
  loadFraction: number | null;
  finishesOn: string | null;
  /** Days on the wall between due and finished, 0 when in time. */
  lateDays: number | null;
}

const SATURDAY = 6;

/** Monday to Friday. */
export function isWorkingDay(date: string): boolean {
  const weekday = new Date(`${date}T00:00:00Z`).getUTCDay();
  return weekday !== 0 && weekday !== SATURDAY;
}

/**
 * Whether jobs are finished by their dates when the earliest due is worked first, all benches on one job after the other.
 *
 * @param jobs earliest due first, undated last
 * @param day today, and the minutes that all benches together have on a working day
 */
export function benchLoad(
  jobs: readonly LoadJob[],
  { today, minutesPerDay }: { today: string; minutesPerDay: number },
): JobLoad[] {
  let runningMinutes = 0;
  return jobs.map(({ dueOn, minutesLeft }) => {
    runningMinutes += minutesLeft;
    const workingDays = dueOn === null ? null : workingDaysUntil(today, dueOn);
    const capacityMinutes = workingDays === null ? null : workingDays * minutesPerDay;
    const finishesOn = minutesPerDay > 0 ? nthWorkingDay(today, Math.max(1, Math.ceil(runningMinutes / minutesPerDay))) : null;
    return {
      runningMinutes,
      workingDays,
      capacityMinutes,
      loadFraction: capacityMinutes ? runningMinutes / capacityMinutes : null,
      finishesOn,
      lateDays: dueOn === null || finishesOn === null ? null : Math.max(0, daysBetween(dueOn, finishesOn)),
    };
  });
}

/** Both days included; 0 for a day that is past. */
function workingDaysUntil(today: string, dueOn: string): number {
  let count = 0;
  for (let day = today; day <= dueOn; day = addDays(day, 1)) if (isWorkingDay(day)) count += 1;
  return count;
}

/** The first is today, or the next working day after it. */
function nthWorkingDay(today: string, nth: number): string {
  let day = today;
  for (let count = isWorkingDay(day) ? 1 : 0; count < nth;) {
    day = addDays(day, 1);
    if (isWorkingDay(day)) count += 1;
  }
  return day;
}

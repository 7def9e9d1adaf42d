import { addDays } from '../../platform/clock.ts';

const SUNDAY = 0;
const SATURDAY = 6;

/** The day so many working days later, Monday to Friday; none later is the day itself. */
export function workingDaysLater(date: string, days: number): string {
  let day = date;
  for (let left = days; left > 0;) {
    day = addDays(day, 1);
    const weekday = new Date(`${day}T00:00:00Z`).getUTCDay();
    if (weekday !== SUNDAY && weekday !== SATURDAY) left -= 1;
  }
  return day;
}

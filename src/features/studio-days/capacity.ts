import type { Db } from '../../platform/db/client.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './studio-days.store.ts';

/** What the benches can make of a day. */
export interface Capacity {
  /** Minutes that all benches together have on a day; 0 where the studio is closed or everybody is away. */
  minutesOn: (day: string) => number;
  benches: number;
  /** On a working day from which nobody is away. */
  minutesPerDay: number;
  /** How it came about, in sentences. */
  about: string[];
}

interface Hand {
  personId: string | null;
  minutesPerDay: number;
}

/** The benches that are worked, each with its person; without any in the book, the minutes of those who work at a bench. */
export function capacityOf(db: Db): Capacity {
  const { openWeekdays, benchMinutesPerDay } = getSettings(db);
  const hasBenches = store.anyBench(db);
  const worked = store.workedBenches(db).map(({ personId, minutesPerDay, ofPerson }) => ({
    personId,
    minutesPerDay: minutesPerDay ?? ofPerson ?? benchMinutesPerDay,
  }));
  const own = store.benchHands(db);
  const hands: Hand[] = hasBenches ? worked : own.length > 0 ? own : [{ personId: null, minutesPerDay: benchMinutesPerDay }];
  const away = store.allAbsences(db);
  const open = new Set(openWeekdays);
  return {
    minutesOn: (day) => (open.has(weekdayOf(day)) ? hands.reduce((sum, hand) => sum + minutesLeft(hand, away, day), 0) : 0),
    benches: Math.max(hasBenches ? 0 : 1, hands.length),
    minutesPerDay: hands.reduce((sum, { minutesPerDay }) => sum + minutesPerDay, 0),
    about: [
      hasBenches
        ? 'Minutes of a day: those of every bench that somebody works at'
        : own.length > 0
          ? 'Minutes of a day: those of everyone at the bench together, from their own records'
          : 'Minutes of a day: one bench, from the settings, since nobody has any of their own',
      workingDays(openWeekdays),
    ],
  };
}

/** 1 for Monday to 7 for Sunday. */
export function weekdayOf(day: string): number {
  return new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
}

function minutesLeft({ personId, minutesPerDay }: Hand, away: readonly store.AbsenceRow[], day: string): number {
  const lost = away
    .filter((absence) => (absence.personId === null || absence.personId === personId) && covers(absence, day))
    .reduce((sum, absence) => sum + (absence.minutesPerDay ?? Infinity), 0);
  return Math.max(0, minutesPerDay - lost);
}

function covers({ firstOn, lastOn, weekly }: store.AbsenceRow, day: string): boolean {
  return firstOn <= day && day <= lastOn && (!weekly || weekdayOf(firstOn) === weekdayOf(day));
}

const NAMES = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

function workingDays(weekdays: readonly number[]): string {
  const days = weekdays.toSorted((a, b) => a - b).map((day) => ({ day, name: NAMES[day - 1]! }));
  const [first, last] = [days[0], days.at(-1)];
  if (first && last && days.length > 2 && last.day - first.day === days.length - 1)
    return `Working days are ${first.name} to ${last.name}, less closed days and absences; today counts whole`;
  const names = days.length === 0 ? 'none' : days.map(({ name }) => name).join(', ');
  return `Working days are ${names}, less closed days and absences; today counts whole`;
}

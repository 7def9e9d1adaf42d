import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { startOfDay } from '../../platform/wall-time.ts';
import { getSettings } from '../settings/index.ts';
import * as store from './bench-time.store.ts';
import { minutesBetween } from './spans.ts';

interface DayEntry {
  benchTimeId: string;
  operation: string;
  minutes: number;
}

interface DayMinutes {
  day: string;
  minutes: number;
  entries: DayEntry[];
}

/** A person's minutes on each day that has any; a time over midnight stays one time, and its minutes fall to both days. */
export function minutesByDay(db: Db, { personId, from, to }: { personId: string; from: string; to: string }): DayMinutes[] {
  const { timeZone } = getSettings(db);
  const begins = startOfDay(from, timeZone).toISOString();
  const ends = startOfDay(addDays(to, 1), timeZone).toISOString();
  const days = new Map<string, DayEntry[]>();
  for (const { id, operation, ...time } of store.endedBetween(db, { personId, from: begins, until: ends })) {
    for (const { day, minutes } of splitByDay(time, timeZone)) {
      if (day < from || day > to || minutes === 0) continue;
      days.set(day, [...(days.get(day) ?? []), { benchTimeId: id, operation, minutes }]);
    }
  }
  return [...days]
    .toSorted(([a], [b]) => a.localeCompare(b))
    .map(([day, entries]) => ({ day, entries, minutes: sumOf(entries) }));
}

/** The elapsed minutes of a time on each local day it touches: they add up to it, on a night of clock change too. */
export function splitByDay(
  { startedAt, stoppedAt, minutesByHand }: Pick<store.BenchTimeRow, 'startedAt' | 'stoppedAt' | 'minutesByHand'>,
  timeZone: string,
): { day: string; minutes: number }[] {
  const first = dateInZone(new Date(startedAt), timeZone);
  if (minutesByHand !== null || stoppedAt === null) return [{ day: first, minutes: minutesByHand ?? 0 }];
  const parts: { day: string; minutes: number }[] = [];
  let begin = startedAt;
  for (let day = first; begin < stoppedAt; day = addDays(day, 1)) {
    const midnight = startOfDay(addDays(day, 1), timeZone).toISOString();
    const end = midnight < stoppedAt ? midnight : stoppedAt;
    parts.push({ day, minutes: minutesBetween(begin, end) });
    begin = end;
  }
  return parts;
}

function sumOf(entries: readonly DayEntry[]): number {
  return Math.round(entries.reduce((sum, { minutes }) => sum + minutes, 0) * 100) / 100;
}

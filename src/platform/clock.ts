/** The one clock of the book. Everything that asks for the time asks this. */
export interface Clock {
  now(): Date;
}

export const systemClock: Clock = { now: () => new Date() };

/** The date on the studio's wall, ISO 8601, at a moment. */
export function dateInZone(at: Date, timeZone: string): string {
  let format = dateFormats.get(timeZone);
  if (!format) {
    // en-CA writes year-month-day.
    format = new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' });
    dateFormats.set(timeZone, format);
  }
  return format.format(at);
}

// To make one takes a hundred times as long as to use it.
const dateFormats = new Map<string, Intl.DateTimeFormat>();

/** A date some days later; dates carry no zone, so UTC arithmetic is exact. */
export function addDays(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

/** Days from one date to another; below zero when the other is earlier. */
export function daysBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / 86_400_000;
}

/** The time on the studio's wall, hours and minutes, at a moment. */
export function timeInZone(at: Date, timeZone: string): string {
  return new Intl.DateTimeFormat('en-GB', { timeZone, hour: '2-digit', minute: '2-digit' }).format(at);
}

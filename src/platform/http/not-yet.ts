import type { FieldError } from './problem.ts';

/** A device's clock may be this far ahead of ours. */
export const SKEW_MS = 5 * 60_000;

/** A day that something is said to have been on has to have come. */
export function dayAheadErrors(pointer: string, day: string, today: string): FieldError[] {
  return day > today ? [{ pointer, detail: `That day has not come: today is ${today}.`, given: day }] : [];
}

/** A moment that somebody noted has to have come. */
export function aheadErrors(pointer: string, moment: string, now: Date): FieldError[] {
  if (Date.parse(moment) <= now.getTime() + SKEW_MS) return [];
  return [{ pointer, detail: `${moment} has not come yet; is the device's clock right?`, given: moment }];
}

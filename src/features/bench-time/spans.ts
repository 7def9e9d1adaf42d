import { checkFence } from '../../../shared/limits/check-fence.ts';
import type { FieldError } from '../../platform/http/problem.ts';

const MINUTE_MS = 60_000;
/** A device's clock may be this far ahead of ours. */
const SKEW_MS = 5 * MINUTE_MS;
export const DOUBT_AFTER_MS = 4 * 60 * MINUTE_MS;

/** Kept to the millisecond in UTC, so that text compares as time does. */
export function utc(moment: string): string {
  return new Date(moment).toISOString();
}

/** Elapsed: instants know no clock change. */
export function minutesBetween(startedAt: string, stoppedAt: string): number {
  return Math.round(((Date.parse(stoppedAt) - Date.parse(startedAt)) / MINUTE_MS) * 100) / 100;
}

/** What is wrong with a span; a span over the ask fence passes when it is confirmed. */
export function spanErrors({
  startedAt,
  stoppedAt,
  now,
}: {
  startedAt: string;
  stoppedAt: string | null;
  now: Date;
}): FieldError[] {
  return [
    ...(isAhead(startedAt, now) ? [ahead('/startedAt', startedAt)] : []),
    ...(stoppedAt === null ? [] : stopErrors(startedAt, stoppedAt, now)),
  ];
}

function stopErrors(startedAt: string, stoppedAt: string, now: Date): FieldError[] {
  if (isAhead(stoppedAt, now)) return [ahead('/stoppedAt', stoppedAt)];
  const minutes = minutesBetween(startedAt, stoppedAt);
  if (minutes < 0) return [{ pointer: '/stoppedAt', detail: `It stopped before it started, at ${startedAt}.`, given: stoppedAt }];
  const found = checkFence('bench_time', 'spanMinutes', minutes);
  if (found.outcome === 'ok') return [];
  return [
    { pointer: '/stoppedAt', detail: found.says, given: stoppedAt, ...(found.outcome === 'ask' ? { confirmable: true } : {}) },
  ];
}

function isAhead(moment: string, now: Date): boolean {
  return Date.parse(moment) > now.getTime() + SKEW_MS;
}

function ahead(pointer: string, moment: string): FieldError {
  return { pointer, detail: `${moment} has not come yet; is the device's clock right?`, given: moment };
}

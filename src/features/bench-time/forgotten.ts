import { dateInZone } from '../../platform/clock.ts';
import { momentOf } from '../../platform/wall-time.ts';
import type { Settings } from '../settings/index.ts';

const HOUR_MS = 60 * 60_000;
const LONGEST_MS = 4 * HOUR_MS;

/**
 * When a timer that still runs counts as forgotten: after four hours, or an hour past the closing time of its day, whichever is
 * first. One that was started when the studio was closed already (a class in the evening) has its four hours.
 */
export function forgottenFrom(startedAt: string, { closingTime, timeZone }: Pick<Settings, 'closingTime' | 'timeZone'>): Date {
  const started = new Date(startedAt);
  const long = new Date(started.getTime() + LONGEST_MS);
  if (closingTime === null) return long;
  const closed = momentOf(dateInZone(started, timeZone), closingTime, timeZone);
  const past = new Date(closed.getTime() + HOUR_MS);
  return started < closed && past < long ? past : long;
}

import { checkFence } from '../../../shared/limits/check-fence.ts';
import { aheadErrors } from '../../platform/http/not-yet.ts';
import type { FieldError } from '../../platform/http/problem.ts';

const MINUTE_MS = 60_000;

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
  return [...aheadErrors('/startedAt', startedAt, now), ...(stoppedAt === null ? [] : stopErrors(startedAt, stoppedAt, now))];
}

function stopErrors(startedAt: string, stoppedAt: string, now: Date): FieldError[] {
  const ahead = aheadErrors('/stoppedAt', stoppedAt, now);
  if (ahead.length > 0) return ahead;
  const minutes = minutesBetween(startedAt, stoppedAt);
  if (minutes < 0) return [{ pointer: '/stoppedAt', detail: `It stopped before it started, at ${startedAt}.`, given: stoppedAt }];
  const found = checkFence('bench_time', 'spanMinutes', minutes);
  if (found.outcome === 'ok') return [];
  return [
    { pointer: '/stoppedAt', detail: found.says, given: stoppedAt, ...(found.outcome === 'ask' ? { confirmable: true } : {}) },
  ];
}

import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { startScheduler } from '../../src/platform/scheduler.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('startScheduler() runs every job at once and then each minute, until it is stopped', () => {
  let runs = 0;
  const { stop } = startScheduler([{ name: 'count', run: () => (runs += 1) }], () => {
    throw new Error('no job failed');
  });
  expect(runs).toBe(1);
  vi.advanceTimersByTime(59_999);
  expect(runs).toBe(1);
  vi.advanceTimersByTime(120_001);
  expect(runs).toBe(4);
  stop();
  vi.advanceTimersByTime(600_000);
  expect(runs).toBe(4);
});

const breaks = () => {
  throw new Error('no such table');
};

test('startScheduler() tells of a job that fails, and holds up no other', () => {
  const failed: string[] = [];
  let runs = 0;
  const { stop } = startScheduler(
    [
      { name: 'breaks', run: breaks },
      { name: 'count', run: () => (runs += 1) },
    ],
    (job, error) => failed.push(`${job}: ${(error as Error).message}`),
  );
  vi.advanceTimersByTime(60_000);
  stop();
  expect(runs).toBe(2);
  expect(failed).toEqual(['breaks: no such table', 'breaks: no such table']);
});

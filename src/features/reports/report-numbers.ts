import type { Period } from './reports.schema.ts';

/** Half-up at a number of decimals, as a number that prints so. */
export function round(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return (Math.sign(value) * Math.round(Math.abs(value) * scale)) / scale + 0;
}

/** Whether a day lies in a period; what has no day does so only when no period is asked for. */
export function within(day: string | null, { from, to }: Period): boolean {
  if (day === null) return from === null && to === null;
  return (from === null || day >= from) && (to === null || day <= to);
}

/** The one in the middle, or between the two that are; of none, 0. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length / 2;
  return ((sorted[Math.ceil(middle) - 1] ?? 0) + (sorted[Math.floor(middle)] ?? 0)) / 2;
}

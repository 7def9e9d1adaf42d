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

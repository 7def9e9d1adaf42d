export const PERIODS = ['all', 'month', 'year', 'last_year', 'own'] as const;
export type PeriodName = (typeof PERIODS)[number];

export interface Period {
  from?: string;
  to?: string;
}

/** The first and last day of a period, both included. */
export function periodOf(name: Exclude<PeriodName, 'own'>, today: string): Period {
  const [year, month] = today.split('-').map(Number) as [number, number];
  switch (name) {
    case 'all':
      return {};
    case 'month':
      // Day 0 is the last of the month before.
      return { from: `${today.slice(0, 8)}01`, to: new Date(Date.UTC(year, month, 0)).toISOString().slice(0, 10) };
    case 'year':
      return { from: `${year}-01-01`, to: `${year}-12-31` };
    case 'last_year':
      return { from: `${year - 1}-01-01`, to: `${year - 1}-12-31` };
  }
}

/** The name of a period, or own days. */
export function nameOf(period: Period, today: string): PeriodName {
  const same = (name: Exclude<PeriodName, 'own'>) => {
    const { from, to } = periodOf(name, today);
    return from === period.from && to === period.to;
  };
  return (['all', 'month', 'year', 'last_year'] as const).find(same) ?? 'own';
}

/** The day that it is at the studio, ISO 8601. */
export function todayIn(timeZone: string): string {
  return new Intl.DateTimeFormat('en-CA', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).format(new Date());
}

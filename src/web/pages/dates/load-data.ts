import { groupBy } from '../../../../shared/group-by.ts';
import { api, bodyOf } from '../../api/client.ts';
import type { ItemOf, ReplyOf } from '../../api/reply.ts';

export type BenchLoad = Extract<ReplyOf<'/api/v1/reports/{name}'>, { report: 'bench-load' }>;
export type Job = BenchLoad['rows'][number];
export type Day = BenchLoad['days'][number];
export type Absence = ItemOf<'/api/v1/absences'>;
export type Bench = ItemOf<'/api/v1/benches'>;
export type Hand = { id: string; name: string };

export interface DatesData {
  load: BenchLoad;
  absences: Absence[];
  benches: Bench[];
  /** Who works here; told to the owner alone. */
  people: Hand[];
}

/** What the page of dates shows, all of one moment. */
export async function loadDates({ isOwner, signal }: { isOwner: boolean; signal: AbortSignal }): Promise<DatesData> {
  const query = { limit: 200 };
  const [load, absences, benches, people] = await Promise.all([
    bodyOf(api.GET('/api/v1/reports/{name}', { params: { path: { name: 'bench-load' } }, signal })),
    bodyOf(api.GET('/api/v1/absences', { params: { query }, signal })),
    bodyOf(api.GET('/api/v1/benches', { params: { query }, signal })),
    isOwner ? bodyOf(api.GET('/api/v1/people', { params: { query }, signal })) : { items: [] },
  ]);
  const { today } = load as BenchLoad;
  return {
    load: load as BenchLoad,
    absences: absences.items.filter(({ lastOn }) => lastOn >= today).toSorted((a, b) => a.firstOn.localeCompare(b.firstOn)),
    benches: benches.items.filter(({ active }) => active).toReversed(),
    people: people.items.filter(({ active }) => active),
  };
}

/** Days by the Monday they follow, in order. */
export function weeksOf(days: readonly Day[]): { monday: string; days: Day[] }[] {
  const weeks = groupBy(days, ({ on }) => mondayOf(on));
  return [...weeks].map(([monday, own]) => ({ monday, days: own }));
}

function mondayOf(day: string): string {
  const at = new Date(`${day}T00:00:00Z`);
  at.setUTCDate(at.getUTCDate() - ((at.getUTCDay() + 6) % 7));
  return at.toISOString().slice(0, 10);
}

/** Minutes on the clock: 5 h 30, never broken over two lines. */
export function hoursOf(minutes: number): string {
  const whole = Math.round(Math.abs(minutes));
  const sign = minutes < 0 && whole > 0 ? '−' : '';
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  if (hours === 0) return `${sign}${rest}\u{A0}min`;
  return rest === 0 ? `${sign}${hours}\u{A0}h` : `${sign}${hours}\u{A0}h\u{A0}${String(rest).padStart(2, '0')}`;
}

/** A day of a week in few letters: Mon, Dec 1. */
export function dayIn(locale: string, day: string): string {
  return new Intl.DateTimeFormat(locale, { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' }).format(
    new Date(`${day}T00:00:00Z`),
  );
}

/** Such as Monday. */
export function weekdayIn(locale: string, day: string): string {
  return new Intl.DateTimeFormat(locale, { weekday: 'long', timeZone: 'UTC' }).format(new Date(`${day}T00:00:00Z`));
}

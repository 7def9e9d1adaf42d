import type { Db } from '../../platform/db/client.ts';
import { allMovements, type MovementRow } from './stock-movements.store.ts';

const DAY_MS = 86_400_000;

/** What work took out of the drawer, as it stands after reversals: used and scrapped, less what was put back. */
export function usesOf(movements: readonly MovementRow[]): MovementRow[] {
  const reversed = new Set(movements.map(({ reversesId }) => reversesId));
  return movements.filter(({ id, kind }) => (kind === 'use' || kind === 'scrap' || kind === 'put_back') && !reversed.has(id));
}

/** The same of the whole ledger. */
export function solderUses(db: Db): MovementRow[] {
  return usesOf(allMovements(db));
}

/**
 * How much was used in each week up to today, oldest first, weeks without use included. A week in which more was put back than
 * taken counts as none.
 *
 * @param uses day of each, and tenths of a milligram taken (put back: negative)
 * @param span since: the first day there was any; at most: weeks looked back
 */
export function weeklyUse(
  uses: readonly { day: string; tenthMg: number }[],
  { since, today, atMost }: { since: string; today: string; atMost: number },
): number[] {
  const weekOf = (day: string) => Math.floor((Date.parse(today) - Date.parse(day)) / DAY_MS / 7);
  const weeks = Math.min(atMost, weekOf(since) + 1);
  const used = Array.from({ length: Math.max(0, weeks) }, () => 0);
  for (const { day, tenthMg } of uses) {
    const week = weekOf(day);
    if (week >= 0 && week < used.length) used[week]! += tenthMg;
  }
  return used.map((tenthMg) => Math.max(0, tenthMg)).toReversed();
}

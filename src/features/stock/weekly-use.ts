import { daysBetween } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import type { MetalMovementRow } from './metal-lots.store.ts';
import { usesStanding, type MovementRow } from './stock-movements.store.ts';

/** What work took out of the drawer, as it stands after reversals: used, issued and scrapped, less what was put back. */
export function usesOf<Line extends LedgerLine>(movements: readonly Line[]): Line[] {
  const reversed = new Set(movements.map(({ reversesId }) => reversesId));
  return movements.filter(({ id, kind }) => OF_WORK.has(kind) && !reversed.has(id));
}

/** What the ledgers of solder and of metal have in common. */
export type LedgerLine = Pick<MovementRow | MetalMovementRow, 'id' | 'kind' | 'at' | 'onHandTenthMg' | 'reversesId' | 'pieceId'>;

const OF_WORK: ReadonlySet<string> = new Set(['use', 'issue', 'scrap', 'put_back']);

/** What work took of solder from one moment on and before another; null: as far as the book goes. */
export function solderUses(db: Db, moments: { since: string | null; before: string | null }): MovementRow[] {
  return usesStanding(db, moments);
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
  const weekOf = (day: string) => Math.floor(daysBetween(day, today) / 7);
  const weeks = Math.min(atMost, weekOf(since) + 1);
  const used = Array.from({ length: Math.max(0, weeks) }, () => 0);
  for (const { day, tenthMg } of uses) {
    const week = weekOf(day);
    if (week >= 0 && week < used.length) used[week]! += tenthMg;
  }
  return used.map((tenthMg) => Math.max(0, tenthMg)).toReversed();
}

/** How many of each are kept: the newest of so many days, weeks (ISO 8601, from Monday) and months. */
export interface KeepRule {
  keepDays: number;
  keepWeeks: number;
  keepMonths: number;
}

interface Dated {
  id: string;
  /** ISO 8601, on the studio's wall. */
  date: string;
}

/**
 * Which backups go: all but the newest one of each of the newest days, weeks and months that have one. The newest of all stays
 * whatever the rule says.
 *
 * @param backups newest first
 */
export function backupsToRemove<Backup extends Dated>(
  backups: readonly Backup[],
  { keepDays, keepWeeks, keepMonths }: KeepRule,
): Backup[] {
  const kept = new Set(backups.slice(0, 1).map(({ id }) => id));
  for (const [span, most] of [
    [({ date }: Dated) => date, keepDays],
    [({ date }: Dated) => mondayOf(date), keepWeeks],
    [({ date }: Dated) => date.slice(0, 7), keepMonths],
  ] as const) {
    const newest = new Map<string, string>();
    for (const backup of backups) if (!newest.has(span(backup))) newest.set(span(backup), backup.id);
    for (const id of [...newest.values()].slice(0, most)) kept.add(id);
  }
  return backups.filter(({ id }) => !kept.has(id));
}

function mondayOf(date: string): string {
  const at = new Date(`${date}T00:00:00Z`);
  at.setUTCDate(at.getUTCDate() - ((at.getUTCDay() + 6) % 7));
  return at.toISOString().slice(0, 10);
}

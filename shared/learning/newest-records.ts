/** How long a piece's operation took, against what was guessed. */
export interface TimeRecord {
  /** When it was done, RFC 3339. */
  at: string;
  personId: string;
  ratio: number;
}

/** Records older than these months drop out once so many newer ones exist. */
const OLD_MONTHS = 24;
const ENOUGH_NEWER = 8;

/**
 * The records that are learned from: those of the last 24 months where they are eight or more; all of them otherwise.
 *
 * @param now RFC 3339
 * @returns in the order given
 */
export function newestRecords<Record extends Pick<TimeRecord, 'at'>>(records: readonly Record[], now: string): Record[] {
  const limit = new Date(now);
  limit.setUTCMonth(limit.getUTCMonth() - OLD_MONTHS);
  const newer = records.filter(({ at }) => Date.parse(at) >= limit.getTime());
  return newer.length >= ENOUGH_NEWER ? newer : [...records];
}

/**
 * The records of one person where there are eight or more, of everybody otherwise.
 *
 * @returns own: whether they are the person's
 */
export function recordsFor<Record extends Pick<TimeRecord, 'personId'>>(
  records: readonly Record[],
  personId: string,
): { own: boolean; records: Record[] } {
  const own = records.filter((record) => record.personId === personId);
  return own.length >= ENOUGH_NEWER ? { own: true, records: own } : { own: false, records: [...records] };
}

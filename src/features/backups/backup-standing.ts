import { addDays, dateInZone } from '../../platform/clock.ts';
import type { Db } from '../../platform/db/client.ts';
import { momentOf } from '../../platform/wall-time.ts';
import { getSettings, type Settings } from '../settings/index.ts';
import { keptBackups, lastCheckedAt, newestBackup, type BackupRow } from './backups.store.ts';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** After one that failed. */
const TRY_AGAIN_MS = HOUR_MS;
const CHECK_EVERY_MS = 30 * DAY_MS;
/** A day without one may be a day off; two are told. */
const LATE_MS = 2 * DAY_MS;

type Times = Pick<Settings, 'backups' | 'timeZone'>;

/** The last moment at which a backup was due. */
export function lastDue({ backups: { time }, timeZone }: Times, at: Date): Date {
  const today = dateInZone(at, timeZone);
  const due = momentOf(today, time, timeZone);
  return due <= at ? due : momentOf(addDays(today, -1), time, timeZone);
}

function nextDue({ backups: { time }, timeZone }: Times, at: Date): Date {
  const today = dateInZone(at, timeZone);
  const due = momentOf(today, time, timeZone);
  return due > at ? due : momentOf(addDays(today, 1), time, timeZone);
}

/** @param newest the newest that was begun */
export function isDue(times: Times, newest: BackupRow | undefined, at: Date): boolean {
  if (times.backups.folder === '') return false;
  if (newest === undefined) return true;
  if (newest.state === 'failed') return at.getTime() - Date.parse(newest.begunAt) >= TRY_AGAIN_MS;
  return Date.parse(newest.begunAt) < lastDue(times, at).getTime();
}

/** The kept one to open and read through, if none was for a month. */
export function toCheck(db: Db, at: Date): BackupRow | undefined {
  const last = lastCheckedAt(db, at);
  if (last !== null && at.getTime() - Date.parse(last) < CHECK_EVERY_MS) return undefined;
  return keptBackups(db)[0];
}

/** Whether the book is put away as the owner wants it, and what is wrong if not. */
export function backupStanding(db: Db, at: Date) {
  const settings = getSettings(db);
  const { folder } = settings.backups;
  const kept = keptBackups(db);
  const newest = newestBackup(db, at);
  const lastKept = kept.find(({ begunAt }) => begunAt <= at.toISOString());
  const warnings: string[] = [];
  if (folder === '') warnings.push('The book is not backed up: if this disk fails, it is gone. Name a folder on another disk.');
  else if (newest?.state === 'failed')
    warnings.push(`The last backup failed, into ${newest.folder}: ${newest.failure}. It is tried again every hour.`);
  else if (lastKept && at.getTime() - Date.parse(lastKept.begunAt) > LATE_MS)
    warnings.push(`The newest backup is of ${dateInZone(new Date(lastKept.begunAt), settings.timeZone)}.`);
  const unsound = kept.find(({ checkFailure }) => checkFailure !== null);
  if (unsound) warnings.push(`The backup ${unsound.fileName} was opened, and cannot be trusted: ${unsound.checkFailure}.`);
  return {
    folder,
    nextAt: folder === '' ? null : nextDue(settings, at).toISOString(),
    lastKeptAt: lastKept?.begunAt ?? null,
    lastCheckedAt: lastCheckedAt(db, at),
    warnings,
  };
}

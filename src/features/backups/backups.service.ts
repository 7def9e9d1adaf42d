import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { dateInZone } from '../../platform/clock.ts';
import { writtenBy, type Actor } from '../../platform/http/actor.ts';
import { pageOf, type Page } from '../../platform/http/paging.ts';
import { Problem } from '../../platform/http/problem.ts';
import { newId } from '../../platform/ids.ts';
import { writeJournal } from '../../platform/journal.ts';
import type { LateNotes } from '../../platform/late-notes.ts';
import type { Platform } from '../../platform/platform.ts';
import { getSettings } from '../settings/index.ts';
import { backupKey } from './backup-key.ts';
import { bookFileOf, copyOf, openedBeside, partOf, removeCopy } from './book-file.ts';
import { backupStanding, isDue, toCheck } from './backup-standing.ts';
import type { BackupOutcome, BackupWork } from './backup-thread.ts';
import {
  changeBackup,
  getBackup,
  insertBackup,
  keptBackups,
  listBackups,
  newestBackup,
  unfinishedBackups,
  type BackupRow,
} from './backups.store.ts';
import { inWords } from './disk-words.ts';
import { backupsToRemove } from './kept-backups.ts';

export type BackupService = ReturnType<typeof createBackupService>;

/** Encrypted copies of the book in a folder that the owner names, and whether they can be trusted. */
export function createBackupService({ db, clock }: Platform, lateNotes: LateNotes) {
  /** One at a time: two would fight for the disk. */
  let working: Promise<void> | null = null;

  const work = (task: () => Promise<void>): void => {
    working = task().finally(() => (working = null));
  };

  async function put(row: BackupRow): Promise<void> {
    const book = bookFileOf(db);
    const outcome = await onThread(async () => {
      const { recipient } = await backupKey(book);
      return { work: 'make', bookFile: book, folder: row.folder, fileName: row.fileName, recipient };
    });
    const ended = { endedAt: clock.now().toISOString() };
    lateNotes.write(() => {
      if ('bytes' in outcome) {
        changeBackup(db, row.id, { ...ended, ...outcome, state: 'kept' });
        removeOld(row.folder);
      } else changeBackup(db, row.id, { ...ended, state: 'failed', failure: outcome.failure });
    });
  }

  async function check({ id, folder, fileName }: BackupRow): Promise<void> {
    const book = bookFileOf(db);
    const { failure } = await onThread(async () => {
      const { identity } = await backupKey(book);
      return { work: 'check', file: join(folder, fileName), identity, opened: openedBeside(book) };
    });
    const checkedAt = clock.now().toISOString();
    lateNotes.write(() => changeBackup(db, id, { checkedAt, checkFailure: failure }));
  }

  function removeOld(folder: string): void {
    const { backups: rule, timeZone } = getSettings(db);
    const kept = keptBackups(db).filter((one) => one.folder === folder);
    const dated = kept.map((one) => ({ ...one, date: dateInZone(new Date(one.begunAt), timeZone) }));
    for (const { id, fileName } of backupsToRemove(dated, rule)) {
      rmSync(join(folder, fileName), { force: true });
      changeBackup(db, id, { state: 'removed' });
    }
  }

  function writeDown(askedBy: string | null): BackupRow {
    const { folder } = getSettings(db).backups;
    const at = clock.now();
    // To the millisecond: a small book is put away twice in a second.
    const fileName = `hearthbook-${at.toISOString().replaceAll(/[-:.]/g, '')}.sqlite.age`;
    const id = newId(at);
    return insertBackup(db, { id, begunAt: at.toISOString(), state: 'running', askedBy, folder, fileName });
  }

  function holdFree(): void {
    if (working) throw new Problem('condition-not-met', 'Cannot begin: a backup is being made or checked; wait until it is done');
  }

  return {
    standing: () => ({ ...backupStanding(db, clock.now()), working: working !== null }),

    list: (page: Page) => pageOf(listBackups(db, page), page, show),

    get: (id: string) => show(getBackup(db, id)),

    /** Begins one now. @throws {Problem} condition-not-met without a folder, or while another is worked on */
    make(actor: Actor) {
      bookFileOf(db);
      if (getSettings(db).backups.folder === '')
        throw new Problem('condition-not-met', 'Cannot make a backup: name a folder for it in the settings first');
      holdFree();
      const by = writtenBy(actor, clock.now());
      const row = db.transaction((tx) => {
        const written = writeDown(by.personId);
        writeJournal(tx, by, { what: 'backup', id: written.id, after: show(written) });
        return written;
      });
      work(() => put(row));
      return show(row);
    },

    /** Begins to open one and to read through all of it. @throws {Problem} condition-not-met when there is no file of it */
    check(id: string) {
      const row = getBackup(db, id);
      if (row.state !== 'kept') throw new Problem('condition-not-met', 'Cannot check this backup: there is no file of it');
      holdFree();
      work(() => check(row));
      return show(row);
    },

    /** Makes the one that is due; once a month opens the newest and reads through it. */
    runDue(): void {
      const at = clock.now();
      if (working) return;
      const settings = getSettings(db);
      if (isDue(settings, newestBackup(db, at), at)) {
        const row = writeDown(null);
        return work(() => put(row));
      }
      const unchecked = toCheck(db, at);
      if (unchecked) work(() => check(unchecked));
    },

    /** What a server before this one left when it came to its end in the midst of one. */
    noteInterrupted(): void {
      const unfinished = unfinishedBackups(db);
      if (unfinished.length === 0) return;
      const ended = { endedAt: clock.now().toISOString(), state: 'failed', failure: 'the server was stopped meanwhile' } as const;
      lateNotes.write(() => {
        for (const { id } of unfinished) changeBackup(db, id, ended);
        removeCopy(copyOf(bookFileOf(db)));
        for (const { folder, fileName } of unfinished) rmSync(partOf(folder, fileName), { force: true });
      });
    },

    /** Resolves when nothing is worked on. */
    idle: async (): Promise<void> => working ?? undefined,
  };
}

function show({ askedBy: _askedBy, ...row }: BackupRow) {
  return row;
}

/** @param given what the thread needs; may fail as the work may */
async function onThread(given: () => Promise<BackupWork>): Promise<BackupOutcome> {
  try {
    const workerData = await given();
    return await new Promise<BackupOutcome>((resolve, reject) => {
      const thread = new Worker(new URL('./backup-thread.ts', import.meta.url), { workerData });
      thread.once('message', resolve);
      thread.once('error', reject);
      thread.once('exit', () => reject(new Error('the server was stopped meanwhile')));
    });
  } catch (error) {
    return { failure: inWords(error) };
  }
}

/** Runs beside the server, so that a large book holds up nobody: makes a backup, or opens one and looks whether it is whole. */

import { parentPort, workerData } from 'node:worker_threads';
import { removeCopy } from './book-file.ts';
import { inWords } from './disk-words.ts';
import { makeBackup, type BackupToMake } from './make-backup.ts';
import { faultOfBook, openBackup } from './open-backup.ts';

export type BackupWork = ({ work: 'make' } & BackupToMake) | { work: 'check'; file: string; identity: string; opened: string };

/** What came of it. An error loses its kind on the way between threads, so it is told in words. */
export type BackupOutcome = { failure: null; bytes: number; sha256: string } | { failure: string | null };

async function outcomeOf(given: BackupWork): Promise<BackupOutcome> {
  try {
    if (given.work === 'make') return { failure: null, ...(await makeBackup(given)) };
    await openBackup(given.file, given.identity, given.opened);
    return { failure: faultOfBook(given.opened) };
  } catch (error) {
    return { failure: inWords(error) };
  } finally {
    if (given.work === 'check') removeCopy(given.opened);
  }
}

const port = parentPort!;
port.postMessage(await outcomeOf(workerData as BackupWork));

import { Readable } from 'node:stream';
import { Worker } from 'node:worker_threads';
import Database from 'better-sqlite3';
import { Problem } from '../../platform/http/problem.ts';
import type { ExportToMake, FromExport, ToExport } from './export-thread.ts';

/**
 * Copies a book and packs the copy on a thread of its own. The zip is there once the copy is made, and is packed as it is read.
 *
 * @param gone aborts when nobody waits for the copy any more
 * @param done nothing of the copy is open any more; before the zip says that it has ended
 * @throws {Problem} too-slow when nobody waits for it any more; what SQLite says of the copy
 */
export function zipOnThread(given: ExportToMake, gone: AbortSignal, done: () => void): Promise<Readable> {
  const thread = new Worker(new URL('./export-thread.ts', import.meta.url), { workerData: given });
  const ask = (asked: ToExport) => thread.postMessage(asked);
  const zip = new Readable({
    read: () => ask('more'),
    destroy: (error, destroyed) => {
      ask('stop');
      destroyed(error);
    },
  });
  let isWhole = false;
  let fault: Error | undefined;
  const stop = () => {
    fault = new Problem('too-slow', 'It was ended before there was an answer');
    ask('stop');
  };
  return new Promise((resolve, reject) => {
    gone.addEventListener('abort', stop, { once: true });
    if (gone.aborted) stop();
    thread.on('message', (told: FromExport) => {
      if (told.says === 'copied') resolve(zip);
      else if (told.says === 'piece') zip.push(told.bytes);
      else if (told.says === 'whole') isWhole = true;
      else fault = asThrown(told);
    });
    thread.once('error', (error) => (fault = error as Error));
    thread.once('exit', () => {
      done();
      if (isWhole) {
        zip.push(null);
        return;
      }
      // Told to whoever waits for the copy, or to whoever reads the zip.
      zip.once('error', reject);
      zip.destroy(fault ?? new Error('an export ended before it was whole'));
    });
  });
}

function asThrown({ message, code }: FromExport & { says: 'failed' }): Error {
  return code?.startsWith('SQLITE_') ? new Database.SqliteError(message, code) : new Error(message);
}

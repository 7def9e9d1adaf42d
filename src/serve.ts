import type { FastifyInstance } from 'fastify';
import { bookFile, type Config } from './config.ts';
import { dueWork } from './due-work.ts';
import { openDb, type OpenDb } from './platform/db/client.ts';
import { SKEW_MS } from './platform/http/not-yet.ts';
import { lastWrittenAt } from './platform/journal.ts';
import type { Platform } from './platform/platform.ts';
import { startScheduler } from './platform/scheduler.ts';
import type { Services } from './services.ts';

/**
 * Catches up with what fell due, listens, and closes in order on SIGINT or SIGTERM.
 *
 * @param closeBook closes the database, after the last request has been answered
 * @returns the address it listens on
 */
export async function serve(
  http: FastifyInstance,
  { platform, services, config, closeBook }: { platform: Platform; services: Services; config: Config; closeBook: () => void },
): Promise<string> {
  sayIfClockIsBehind(platform);
  const scheduler = startScheduler(dueWork(platform, services), (job, error) =>
    http.log.error({ err: error, job }, 'due work failed'),
  );
  const close = async (): Promise<void> => {
    scheduler.stop();
    await http.close();
    closeBook();
  };
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void close().then(() => process.exit(0)));
  return listening(http.listen({ host: config.host, port: config.port }), config, close);
}

/** A machine that was without power for long may wake up in another year. */
function sayIfClockIsBehind({ db, clock }: Platform): void {
  const now = clock.now();
  const written = lastWrittenAt(db);
  if (written === null || written.getTime() - now.getTime() <= SKEW_MS) return;
  process.stderr.write(
    `The clock of this machine says it is ${now.toISOString()}, and the book was last written at ${written.toISOString()}: set the clock, or the times in the book will be wrong\n`,
  );
}

/** The book of a folder, brought up to date; says in words why it cannot be opened, and ends the program. */
export function openOrSay(config: Config, at: Date): OpenDb {
  try {
    return openDb(bookFile(config), at);
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n`);
    process.exit(1);
  }
}

/** Says in words why an address cannot be listened on, and ends the program. @param close ends what was begun @param variables say where to listen */
export async function listening<T>(
  began: Promise<T>,
  { host, port }: { host: string; port: number },
  close: () => Promise<unknown>,
  variables = 'HOST or PORT',
): Promise<T> {
  try {
    return await began;
  } catch (error) {
    await close();
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EADDRINUSE' && code !== 'EACCES' && code !== 'EADDRNOTAVAIL') throw error;
    const why = {
      EADDRINUSE: 'something else listens there',
      EACCES: 'this user may not',
      EADDRNOTAVAIL: 'this machine has no such address',
    }[code];
    process.stderr.write(`Cannot listen on ${host}:${port}: ${why}. Set ${variables} to another.\n`);
    process.exit(1);
  }
}

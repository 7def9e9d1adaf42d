import type { FastifyInstance } from 'fastify';
import type { Config } from './config.ts';
import { dueWork } from './due-work.ts';
import type { Platform } from './platform/platform.ts';
import { startScheduler } from './platform/scheduler.ts';

/**
 * Catches up with what fell due, listens, and closes in order on SIGINT or SIGTERM.
 *
 * @param closeBook closes the database, after the last request has been answered
 * @returns the address it listens on
 */
export async function serve(
  http: FastifyInstance,
  { platform, config, closeBook }: { platform: Platform; config: Config; closeBook: () => void },
): Promise<string> {
  const scheduler = startScheduler(dueWork(platform), (job, error) => http.log.error({ err: error, job }, 'due work failed'));
  const close = async (): Promise<void> => {
    scheduler.stop();
    await http.close();
    closeBook();
  };
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void close().then(() => process.exit(0)));
  try {
    return await http.listen({ host: config.host, port: config.port });
  } catch (error) {
    await close();
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EADDRINUSE' && code !== 'EACCES' && code !== 'EADDRNOTAVAIL') throw error;
    const why = {
      EADDRINUSE: 'something else listens there',
      EACCES: 'this user may not',
      EADDRNOTAVAIL: 'this machine has no such address',
    }[code];
    process.stderr.write(`Cannot listen on ${config.host}:${config.port}: ${why}. Set HOST or PORT to another.\n`);
    process.exit(1);
  }
}

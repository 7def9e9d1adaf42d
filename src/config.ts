import { join } from 'node:path';

export interface Config {
  dataFolder: string;
  host: string;
  port: number;
}

/**
 * The environment, read once: HEARTHBOOK_DATA (./data), HOST (127.0.0.1), PORT (3047). An empty variable counts as absent.
 *
 * @throws if PORT is not a port
 */
export function readConfig(env: Record<string, string | undefined>, defaultData = './data'): Config {
  const port = Number(env['PORT'] || 3047);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new Error(`Cannot listen: PORT must be 0 to 65535; it is ${env['PORT']}`);
  return { dataFolder: env['HEARTHBOOK_DATA'] || defaultData, host: env['HOST'] || '127.0.0.1', port };
}

/** The one file the book is kept in. */
export function bookFile({ dataFolder }: Pick<Config, 'dataFolder'>): string {
  return join(dataFolder, 'hearthbook.sqlite');
}

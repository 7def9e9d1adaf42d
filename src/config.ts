import { isIP } from 'node:net';
import { join } from 'node:path';

export interface Config {
  dataFolder: string;
  host: string;
  port: number;
  /** Addresses of servers in front of this one, whose word is taken for who asks and whether by https; none: nobody's. */
  trustedProxies: string[];
}

/**
 * The environment, read once: HEARTHBOOK_DATA (./data), HOST (127.0.0.1), PORT (3047), TRUSTED_PROXY (addresses or networks
 * with a comma between; none). An empty variable counts as absent.
 *
 * @throws if PORT is not a port, or TRUSTED_PROXY names something else than addresses
 */
export function readConfig(env: Record<string, string | undefined>, defaultData = './data'): Config {
  return {
    dataFolder: env['HEARTHBOOK_DATA'] || defaultData,
    host: env['HOST'] || '127.0.0.1',
    port: portOf(env, 'PORT', 3047),
    trustedProxies: proxiesOf(env['TRUSTED_PROXY'] ?? ''),
  };
}

function proxiesOf(written: string): string[] {
  const all = written.split(',').flatMap((one) => (one.trim() === '' ? [] : [one.trim()]));
  for (const one of all) {
    const [address = '', bits, ...more] = one.split('/');
    const most = isIP(address) === 4 ? 32 : 128;
    const isNetwork = bits === undefined || (/^\d{1,3}$/.test(bits) && Number(bits) >= 1 && Number(bits) <= most);
    if (isIP(address) === 0 || !isNetwork || more.length > 0)
      throw new Error(
        `Cannot trust a server in front: TRUSTED_PROXY must be addresses such as 172.18.0.2 or 172.18.0.0/16; it is ${written}`,
      );
  }
  return all;
}

/**
 * Where `npm run lan` serves the studio's network: LAN_HOST (all addresses), LAN_PORT (3443), and LAN_NAME, if the network has a name for
 * this machine.
 *
 * @throws if LAN_PORT is not a port, or LAN_NAME is no name of a machine
 */
export function readLanConfig(env: Record<string, string | undefined>): { host: string; port: number; name: string | null } {
  const name = env['LAN_NAME']?.toLowerCase() || null;
  if (name !== null && !/^[a-z0-9-]+(\.[a-z0-9-]+)*$/.test(name))
    throw new Error(`Cannot make a certificate: LAN_NAME must be a name such as hearth.home.arpa; it is ${name}`);
  return { host: env['LAN_HOST'] || '0.0.0.0', port: portOf(env, 'LAN_PORT', 3443), name };
}

function portOf(env: Record<string, string | undefined>, variable: string, usual: number): number {
  const port = Number(env[variable] || usual);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new Error(`Cannot listen: ${variable} must be 0 to 65535; it is ${env[variable]}`);
  return port;
}

/** The one file the book is kept in. */
export function bookFile({ dataFolder }: Pick<Config, 'dataFolder'>): string {
  return join(dataFolder, 'hearthbook.sqlite');
}

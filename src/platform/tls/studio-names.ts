import { hostname, networkInterfaces, type NetworkInterfaceInfo } from 'node:os';

/** The addresses (IPv4) at which other devices of the studio's network find this machine, the likeliest first. */
export function networkAddresses(interfaces = networkInterfaces()): string[] {
  return Object.entries(interfaces)
    .flatMap(([name, infos = []]) => infos.filter(isOfTheNetwork).map(({ address }) => ({ name, address })))
    .sort((a, b) => likelihood(b) - likelihood(a))
    .map(({ address }) => address);
}

/** All that the server's certificate has to name. @param given a name that the studio's own name server knows this machine by */
export function studioNames(given: string | null, addresses = networkAddresses()): string[] {
  const host = hostname().toLowerCase();
  const isName = /^[a-z0-9]([a-z0-9-]*[a-z0-9])?$/.test(host);
  const named = [...(given === null ? [] : [given]), ...addresses, ...(isName ? [host, `${host}.local`] : [])];
  return [...new Set([...named, 'localhost', '127.0.0.1'])];
}

function isOfTheNetwork({ family, internal, address }: NetworkInterfaceInfo): boolean {
  return family === 'IPv4' && !internal && !address.startsWith('169.254.');
}

/** Networks that programs of the machine make among themselves are of no use to a tablet; nor, mostly, is 172.16/12. */
function likelihood({ name, address }: { name: string; address: string }): number {
  if (/^(docker|br-|veth|virbr|vmnet|tun|tap|utun)/.test(name)) return 0;
  return address.startsWith('192.168.') ? 3 : address.startsWith('10.') ? 2 : 1;
}

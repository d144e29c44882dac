import { isIP } from 'node:net';
import type { NetworkInterfaceInfo } from 'node:os';

/**
 * Where other machines find a server that listens on every address of this one: at its own addresses, IPv4 first. None where it listens on
 * a single address. Link-local IPv6 is left out, since it holds on one cable only and no browser takes it.
 *
 * @param interfaces as `os.networkInterfaces()` gives them
 */
export function urlsElsewhere(
  listen: string,
  port: number,
  interfaces: NodeJS.Dict<Pick<NetworkInterfaceInfo, 'address' | 'internal'>[]>,
): string[] {
  if (listen !== '0.0.0.0' && listen !== '::') return [];
  const own = Object.values(interfaces).flatMap((list) => list ?? []);
  const reachable = own
    .filter(({ address, internal }) => !internal && !/^fe80:/i.test(address))
    .map(({ address }) => address);
  const ipv4 = reachable.filter((address) => isIP(address) === 4);
  const ipv6 = listen === '::' ? reachable.filter((address) => isIP(address) === 6) : [];
  return [...ipv4, ...ipv6.map((address) => `[${address}]`)].map((name) => `http://${name}:${port}`);
}

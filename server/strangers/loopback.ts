import { isIP } from 'node:net';

/** True for addresses that only this machine can reach. */
export function isLoopback(listen: string): boolean {
  const address = listen.toLowerCase();
  if (address === 'localhost' || address === '::1') return true;
  return isIP(address) === 4 && address.startsWith('127.');
}

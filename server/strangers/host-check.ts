import { isIP } from 'node:net';
import { hostname, networkInterfaces } from 'node:os';
import type { RequestHandler } from 'express';
import { RequestError } from '../http/request-error.ts';
import { isLoopback } from './loopback.ts';

/** A Host header taken apart: the name without brackets, in lower case, and the port (80 where none is named). */
function parts(header: string): { name: string; port: number } | null {
  const match = /^(\[[0-9a-f:.]+\]|[a-z0-9._-]+)(?::(\d{1,5}))?$/i.exec(header);
  return match && { name: match[1].replace(/^\[|\]$/g, '').toLowerCase(), port: Number(match[2] ?? 80) };
}

/**
 * Refuses requests whose Host header is not the server's own: a page elsewhere whose name was made to point at this
 * machine (DNS rebinding) still sends its own name. Beyond loopback the machine's own name and addresses count as well.
 */
export function hostCheck(listen: string): RequestHandler {
  const names = new Set(['localhost', '127.0.0.1', '::1', listen.toLowerCase()]);
  if (!isLoopback(listen)) {
    const own = hostname().toLowerCase();
    names.add(own).add(`${own.replace(/\.local$/, '')}.local`);
  }
  const isOwn = (name: string): boolean => names.has(name) || (!isLoopback(listen) && isOwnAddress(name));
  return (request, _response, next) => {
    const host = parts(request.headers.host ?? '');
    if (!host || !isOwn(host.name) || host.port !== request.socket.localPort)
      throw new RequestError(
        403,
        'host-refused',
        'This server does not go by that name. Use the address it printed at start.',
      );
    next();
  };
}

const isOwnAddress = (name: string): boolean =>
  isIP(name) !== 0 &&
  Object.values(networkInterfaces()).some((list) => list?.some(({ address }) => address.toLowerCase() === name));

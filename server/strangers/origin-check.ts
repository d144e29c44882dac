import type { Request, RequestHandler } from 'express';
import { RequestError } from '../http/request-error.ts';

const reads = new Set(['GET', 'HEAD']);

/**
 * Refuses what other sites' pages ask for: every write whose Origin is not the server's own, and every write or API
 * read that the browser itself marks as coming from another site. Programs that are no browser send neither header.
 */
export const originCheck: RequestHandler = (request, _response, next) => {
  const api = request.path.startsWith('/api/') || request.path === '/api';
  const site = request.headers['sec-fetch-site'];
  const foreignSite = site !== undefined && site !== 'same-origin' && site !== 'none';
  const isRead = reads.has(request.method);
  if ((foreignSite && (api || !isRead)) || (!isRead && foreignOrigin(request)))
    throw new RequestError(
      403,
      'origin-refused',
      'Other sites may not use this server. Use the page it serves itself.',
    );
  next();
};

function foreignOrigin({ headers }: Request): boolean {
  return headers.origin !== undefined && headers.origin !== `http://${headers.host}`;
}

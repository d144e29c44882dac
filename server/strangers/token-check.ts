import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { Request, RequestHandler } from 'express';
import { DAY_MS } from '../../src/numeric/time-units.ts';
import { RequestError } from '../http/request-error.ts';
import { tokensMeant } from './tokens-meant.ts';

const cookieName = 'cogwright-token';
/** Shorter ones can be guessed. */
export const SHORTEST_TOKEN = 16;

/** A token nobody can guess. */
export const newToken = (): string => randomBytes(24).toString('base64url');

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
/** Compares in a time that does not tell how much was right. */
const equal = (given: string, expected: Buffer): boolean => timingSafeEqual(digest(given), expected);

/**
 * Lets nobody in without the token: in an `authorization: Bearer` header, or, for the page, in a cookie that opening
 * one of its addresses with `?token=…` once sets. The cookie holds a digest, not the token itself.
 *
 * @param onWrong told of every request with a wrong token
 */
export function tokenCheck(token: string, onWrong: (request: Request) => void): RequestHandler {
  const expected = digest(token);
  const cookie = digest(`cookie of ${token}`).toString('base64url');
  const expectedCookie = digest(cookie);
  const wrong = (request: Request): RequestError => {
    onWrong(request);
    return new RequestError(
      401,
      'token-wrong',
      'The token is not the right one. Open the address the server printed at start.',
    );
  };
  return (request, response, next) => {
    const { token: given, ...rest } = request.query;
    if (request.method === 'GET' && !request.path.startsWith('/api/') && typeof given === 'string') {
      if (!tokensMeant(given).some((one) => equal(one, expected))) throw wrong(request);
      response.cookie(cookieName, cookie, { httpOnly: true, sameSite: 'lax', path: '/', maxAge: 30 * DAY_MS });
      response.set('cache-control', 'no-store').redirect(303, addressOf(request.path, rest));
      return;
    }
    const bearer = /^Bearer (\S+)$/i.exec(request.headers.authorization ?? '')?.[1];
    const carried = cookieOf(request);
    if (bearer === undefined && carried === undefined)
      throw new RequestError(401, 'token-missing', 'This server wants a token. Open the address it printed at start.');
    const right = bearer !== undefined ? equal(bearer, expected) : equal(carried ?? '', expectedCookie);
    if (!right) throw wrong(request);
    next();
  };
}

/** The page's address without the token. A path that browsers would take for another server's name leads to the first page. */
function addressOf(path: string, query: Request['query']): string {
  if (/^\/[/\\]/.test(path)) return '/';
  const kept = new URLSearchParams(query as Record<string, string>).toString();
  return kept === '' ? path : `${path}?${kept}`;
}

function cookieOf({ headers }: Request): string | undefined {
  for (const pair of (headers.cookie ?? '').split(';')) {
    const [name, value] = pair.trim().split('=', 2);
    if (name === cookieName) return value;
  }
  return undefined;
}

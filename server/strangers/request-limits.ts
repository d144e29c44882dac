import type { Request, RequestHandler } from 'express';
import { ipKeyGenerator, MemoryStore, type Options, rateLimit } from 'express-rate-limit';
import { RequestError } from '../http/request-error.ts';

const WINDOW_MS = 60_000;
const MOST_WRONG_TOKENS = 20;

const tooMany = (message: string): RequestError => new RequestError(429, 'too-many-requests', message);

/**
 * Twenty wrong tokens a minute from one address, then nothing more for that minute, not even with the right one: that would
 * tell it from the others. Only wrong ones count, so that any number of pages may be open with the right one.
 */
export class TokenGuesses {
  readonly #wrong = new MemoryStore();

  constructor() {
    this.#wrong.init({ windowMs: WINDOW_MS } as Options);
  }

  /** Lets nobody by who guessed too often. */
  readonly check: RequestHandler = async (request, response, next) => {
    const guessed = await this.#wrong.get(addressOf(request));
    if (guessed && guessed.totalHits >= MOST_WRONG_TOKENS) {
      response.set('retry-after', String(Math.ceil(((guessed.resetTime?.getTime() ?? 0) - Date.now()) / 1000)));
      throw tooMany('Too many wrong tokens. Wait a minute.');
    }
    next();
  };

  /** Takes note of a wrong token. */
  count(request: Request): void {
    void this.#wrong.increment(addressOf(request));
  }
}

const addressOf = ({ ip }: Request): string => ipKeyGenerator(ip ?? '');

/** What one address may ask for in a minute when the server listens beyond this machine. */
export const requestLimit = (): RequestHandler =>
  rateLimit({
    windowMs: WINDOW_MS,
    limit: 6000,
    standardHeaders: 'draft-7',
    legacyHeaders: false,
    handler: () => {
      throw tooMany('Too many requests. Wait a minute.');
    },
  });

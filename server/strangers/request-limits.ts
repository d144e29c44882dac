import type { RequestHandler } from 'express';
import { rateLimit } from 'express-rate-limit';
import { RequestError } from '../http/request-error.ts';

const refuse =
  (message: string): RequestHandler =>
  () => {
    throw new RequestError(429, 'too-many-requests', message);
  };

/** Twenty wrong tokens a minute from one address, then nothing more for that minute. */
export const tokenGuessLimit = (): RequestHandler =>
  rateLimit({
    windowMs: 60_000,
    limit: 20,
    skipSuccessfulRequests: true,
    requestWasSuccessful: (_request, response) => response.statusCode !== 401,
    standardHeaders: 'draft-7',
    legacyHeaders: false,
    handler: refuse('Too many wrong tokens. Wait a minute.'),
  });

/** What one address may ask for in a minute when the server listens beyond this machine. */
export const requestLimit = (): RequestHandler =>
  rateLimit({
    windowMs: 60_000,
    limit: 6000,
    standardHeaders: 'draft-7',
    legacyHeaders: false,
    handler: refuse('Too many requests. Wait a minute.'),
  });

import express, { type Express } from 'express';
import { errorAnswer } from './http/error-answer.ts';
import { mountRoutes } from './http/mount-routes.ts';
import { RequestError } from './http/request-error.ts';
import { requestLog } from './http/request-log.ts';
import { servePage } from './http/serve-page.ts';
import { apiRoutes } from './routes/api-routes.ts';
import type { Services } from './services.ts';
import { hostCheck } from './strangers/host-check.ts';
import { isLoopback } from './strangers/loopback.ts';
import { originCheck } from './strangers/origin-check.ts';
import { requestLimit, TokenGuesses } from './strangers/request-limits.ts';
import { securityHeaders } from './strangers/security-headers.ts';
import { tokenCheck } from './strangers/token-check.ts';
import { tokenPage } from './strangers/token-page.ts';

/** What the app must know of where it listens. */
export interface AppOptions {
  /** Address it will listen on: tells which Host headers are its own. */
  readonly listen: string;
  /** Null: nobody is asked for one. */
  readonly token: string | null;
  /** Folder of the built page. */
  readonly page: string;
}

/** The web application: first who may come in, then the API, then the page. */
export function makeApp(services: Services, { listen, token, page }: AppOptions): Express {
  const app = express();
  app.disable('x-powered-by');
  app.set('etag', false);
  app.set('query parser', 'simple');
  // The checks tell the API by its address as it is written: there must be no other way to write it.
  app.enable('case sensitive routing');
  app.use(requestLog(services.log), securityHeaders, hostCheck(listen));
  if (!isLoopback(listen)) app.use(requestLimit());
  if (token !== null) {
    const guesses = new TokenGuesses();
    app.use(
      guesses.check,
      tokenCheck(token, (request) => guesses.count(request)),
    );
  }
  app.use(originCheck);
  app.use('/api', express.json({ limit: '256kb', strict: true }), mountRoutes(apiRoutes, services), () => {
    throw new RequestError(404, 'not-found', 'The API has no such address. See /api/openapi.json.');
  });
  app.use(servePage(page));
  app.use(tokenPage, errorAnswer(services.log));
  return app;
}

import { existsSync } from 'node:fs';
import { extname, join } from 'node:path';
import express, { Router } from 'express';
import { notFound } from './request-error.ts';

const YEAR = 31_536_000;

/**
 * Serves the built page. Files under `/assets` carry a hash of their content in their name and may be kept for a year;
 * everything else is asked for anew each time. Addresses without a file ending belong to the page itself.
 */
export function servePage(folder: string): Router {
  const router = Router();
  router.use(
    '/assets',
    express.static(join(folder, 'assets'), { immutable: true, maxAge: YEAR * 1000, index: false, redirect: false }),
  );
  router.use(
    express.static(folder, {
      index: false,
      redirect: false,
      setHeaders: (response) => void response.setHeader('cache-control', 'no-cache'),
    }),
  );
  router.get(/.*/, (request, response) => {
    if (request.path.startsWith('/api/') || extname(request.path) !== '') throw notFound('page');
    response.set('cache-control', 'no-cache');
    if (existsSync(join(folder, 'index.html'))) response.sendFile('index.html', { root: folder, cacheControl: false });
    else
      response.status(503).type('text/plain').send('The page is not built yet: stop the server and run npm start.\n');
  });
  return router;
}

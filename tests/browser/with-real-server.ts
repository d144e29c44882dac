import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { openBrowser, type Settings, type WatchedPage, watchedPage } from './browser.ts';
import { buildPage } from './build-page.ts';
import { type RealServer, startRealServer } from './real-server.ts';

/** A real server and a browser, there while the tests of a `describe` run. */
interface WithRealServer {
  readonly server: RealServer;
  /** Opens a page of the server's, watched for faults. */
  open(settings?: Settings): Promise<WatchedPage>;
}

/** Has the page built, a real server started and a browser opened before the tests of a `describe`, and both closed after them. */
export function withRealServer(): WithRealServer {
  let browser: Browser;
  let server: RealServer;
  beforeAll(async () => {
    buildPage();
    server = await startRealServer();
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });
  return {
    get server() {
      return server;
    },
    open: (settings) => watchedPage(browser, server.address, settings),
  };
}

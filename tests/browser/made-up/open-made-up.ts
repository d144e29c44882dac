import type { Server } from 'node:http';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { openBrowser, type Settings, type WatchedPage, watchedPage } from '../browser.ts';
import { buildPage } from '../build-page.ts';
import { madeUpFleet } from './made-up-bikes.ts';
import { serveMadeUp } from './made-up-server.ts';

/**
 * Opens a browser and the page with invented bikes before the tests of the group that this is called in, and closes both after them.
 * Returns what opens a watched page there.
 */
export function openMadeUp(): (settings?: Settings) => Promise<WatchedPage> {
  let browser: Browser;
  let server: Server;
  let address: string;
  beforeAll(async () => {
    buildPage();
    ({ address, server } = await serveMadeUp(madeUpFleet()));
    browser = await openBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    server?.closeAllConnections();
    server?.close();
  });
  return (settings) => watchedPage(browser, address, settings);
}

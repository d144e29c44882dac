import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, chromium, type Page } from 'playwright-core';

const places = [process.env.CHROME_PATH, '/usr/bin/chromium', '/usr/bin/chromium-browser'];

/** A Chromium on this machine; undefined: the browser tests are skipped. */
export const browserPath = places.find((path) => path !== undefined && existsSync(path));

if (!browserPath)
  console.warn('Browser tests skipped: no Chromium found. Install Debian\'s package "chromium" or set CHROME_PATH.');

/** Starts the browser, told to ask nothing of the network by itself. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({
    executablePath: browserPath,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });

export const widths = { desktop: { width: 1280, height: 900 }, phone: { width: 390, height: 844 } } as const;
export type Width = keyof typeof widths;

/** A page that writes down what must not happen: console errors, exceptions, requests to anyone but the server. */
export interface WatchedPage {
  readonly page: Page;
  readonly faults: string[];
}

/** How a page is opened. */
export interface Settings {
  readonly width?: Width;
  readonly dark?: boolean;
  /** A screen that is touched. */
  readonly touch?: boolean;
  /** Failing answers that the test brings about, and so expects in the console. */
  readonly expectFailures?: boolean;
}

/** Opens a page on `address` whose faults are written down. */
export async function watchedPage(
  browser: Browser,
  address: string,
  { width = 'desktop', dark = false, touch = false, expectFailures = false }: Settings = {},
): Promise<WatchedPage> {
  const context = await browser.newContext({
    viewport: widths[width],
    colorScheme: dark ? 'dark' : 'light',
    baseURL: address,
    hasTouch: touch,
    isMobile: touch,
    reducedMotion: 'reduce',
    timezoneId: 'Europe/Zurich',
  });
  const page = await context.newPage();
  page.setDefaultTimeout(60_000);
  const faults: string[] = [];
  const { host } = new URL(address);
  page.on('console', (message) => {
    if (expectFailures && message.text().startsWith('Failed to load resource')) return;
    if (message.type() === 'error' || message.type() === 'warning') faults.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => faults.push(`exception: ${error.message}`));
  page.on('request', (request) => {
    const url = new URL(request.url());
    if (!['data:', 'blob:'].includes(url.protocol) && url.host !== host) faults.push(`request to ${url.host}`);
  });
  return { page, faults };
}

/** Waits until the view has loaded. */
export async function loaded(page: Page): Promise<void> {
  await page.locator('main:not([aria-busy]) :is(h1, h2)').first().waitFor();
}

const axeText = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Serious and critical findings of axe-core on what is shown, each with the elements it found. */
export async function seriousFindings(page: Page): Promise<string[]> {
  // Evaluated by the browser's own debugger, which the page's content policy does not bind.
  await page.evaluate(axeText);
  return page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(): Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 160)).join(' | ')}`);
  });
}

/** How far the page can be scrolled sideways, px; 0 is right. */
export const sidewaysPx = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

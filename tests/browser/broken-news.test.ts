import type { Page, Route } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

/** How the stream of news ends for a page that listens. */
const ends: Readonly<Record<string, Parameters<Route['fulfill']>[0]>> = {
  'broke off': { contentType: 'text/event-stream', body: 'retry: 200\n\n' },
  'was refused': { status: 503, json: { error: { code: 'busy', message: 'Too many pages are listening.' } } },
};

/** Opens a bike's page whose first stream of news ends so; the bike is renamed by the time that the next one opens. */
async function openWithout(page: Page, end: Parameters<Route['fulfill']>[0]): Promise<void> {
  let streams = 0;
  await page.route('**/api/events', (route) => (++streams === 1 ? route.fulfill(end) : route.continue()));
  await page.route(/\/api\/bikes\/b1(\?|$)/, async (route) => {
    const answer = await (await route.fetch()).json();
    if (streams > 1) answer.bike.name = 'Renamed meanwhile';
    await route.fulfill({ json: answer });
  });
  await page.goto('/bikes/b1');
  await loaded(page);
}

describe.skipIf(!browserPath)('a page whose stream of news', () => {
  const open = openMadeUp();

  for (const [how, end] of Object.entries(ends))
    it(`${how} opens another and shows what changed meanwhile`, async () => {
      const { page, faults } = await open({ expectFailures: true });
      await openWithout(page, end);
      await page.getByRole('heading', { name: 'Renamed meanwhile' }).waitFor({ timeout: 20_000 });
      expect(faults).toEqual([]);
      await page.unrouteAll({ behavior: 'ignoreErrors' });
      await page.context().close();
    });
});

import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const waiting = 'The comparison is being worked out.';

/** Opens the page of an adjusted bike whose report comes in as soon as the function returned is called. */
async function openUnfinished(page: Page): Promise<() => void> {
  let finished = false;
  const news = 'retry: 300\n\nevent: bike\ndata: {"bikeId":"b1"}\n\n';
  await page.route('**/api/events', (route) => route.fulfill({ contentType: 'text/event-stream', body: news }));
  await page.route(/\/api\/bikes\/b1(\?|$)/, async (route) => {
    const answer = await (await route.fetch()).json();
    if (finished) answer.bike.name = 'Worked out';
    else answer.report.adjustments = [];
    await route.fulfill({ json: answer });
  });
  await page.goto('/bikes/b1');
  await loaded(page);
  return () => {
    finished = true;
  };
}

describe.skipIf(!browserPath)('a section whose form was open while the report came in', () => {
  const open = openMadeUp();

  for (const way of ['Cancel', 'Escape'])
    it(`shows the report after ${way}, and gives the focus back`, async () => {
      const { page, faults } = await open();
      const finish = await openUnfinished(page);
      const entry = page.locator('.entry');
      expect(await entry.textContent()).toContain(waiting);
      await entry.getByRole('button', { name: /^Edit/ }).click();
      const note = entry.getByLabel('Note');
      await note.fill('half a thought');
      finish();
      await page.getByRole('heading', { name: 'Worked out' }).waitFor({ timeout: 15_000 });
      expect(await note.inputValue()).toBe('half a thought');
      if (way === 'Escape') await note.press('Escape');
      else await entry.getByRole('button', { name: 'Cancel' }).click();
      await entry.getByRole('button', { name: /^Edit/ }).waitFor();
      expect(await entry.textContent()).not.toContain(waiting);
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-keep'))).toBe('edit-a1');
      expect(faults).toEqual([]);
      await page.unrouteAll({ behavior: 'ignoreErrors' });
      await page.context().close();
    });
});

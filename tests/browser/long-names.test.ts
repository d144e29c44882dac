import { describe, expect, it } from 'vitest';
import { browserPath, loaded, sidewaysPx } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const longName = 'hutbikeofthegreenvalleyinspring'.repeat(2);
const longFile = `${'earlyride'.repeat(8)}.fit`;

/** The answers of the server with the names of bikes, files and notes written without a space. */
const renamed = (text: string): string =>
  text
    .replace(/"name":"[^"]*"/g, `"name":"${longName}"`)
    .replace(/"file":"[^"]*"/g, `"file":"${longFile}"`)
    .replace(/"note":"[^"]*"/g, `"note":"${longName}"`);

describe.skipIf(!browserPath)('names without a space', () => {
  const open = openMadeUp();

  for (const width of ['phone', 'desktop'] as const)
    it(`are broken before they widen a view or leave its cards on a ${width}`, async () => {
      const { page, faults } = await open({ width });
      await page.route(/\/api\/(bikes|rides)/, async (route) => {
        const answer = await route.fetch();
        const path = new URL(route.request().url()).pathname;
        await route.fulfill(
          path.endsWith('/columns') ? { response: answer } : { response: answer, body: renamed(await answer.text()) },
        );
      });
      for (const path of [
        '/',
        '/bikes/b1',
        '/bikes/b2',
        '/rides/b1r2',
        '/add?bike=b1',
        '/workshop',
        '/bikes/b1/sheet',
      ]) {
        await page.goto(path);
        await loaded(page);
        await page.waitForTimeout(150);
        expect(await sidewaysPx(page), path).toBe(0);
        const tooWide = await page
          .locator('main :is(li, .panel, .view-head, .sheet-head, h1, h2, p, td, th):not(.out-of-sight)')
          .evaluateAll((parts) =>
            parts
              .filter((one) => !one.closest('.scrolls') && one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0)
              .map((one) => `${one.tagName}.${one.className}`),
          );
        expect(tooWide, path).toEqual([]);
      }
      expect(await page.locator('h1').first().textContent()).toContain(longName);
      expect(faults).toEqual([]);
      await page.context().close();
    });
});

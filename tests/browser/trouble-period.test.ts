import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('the rate of trouble of a bike', () => {
  const open = openMadeUp();

  it('says in the same words in the list, on the bike’s page and on its sheet what it counts', async () => {
    const { page, faults } = await open();
    await page.route(/\/api\/bikes/, async (route) => {
      const answer = await route.fetch();
      const body = (await answer.text())
        .replaceAll('"since":"first-ride"', '"since":"onset"')
        .replaceAll('"sinceAt":null', '"sinceAt":"2026-04-20T08:00:00.000Z"');
      await route.fulfill({ response: answer, body });
    });
    for (const [path, place] of [
      ['/', '.rack-row:first-child .rack-figure'],
      ['/bikes/b1', '.verdict-words'],
      ['/bikes/b1/sheet', '.sheet-state'],
    ]) {
      await page.goto(path);
      await loaded(page);
      const said = await page.locator(place).textContent();
      expect(said, path).toContain('since a fault began suddenly (20 April 2026)');
      expect(said, path).toContain('2,605');
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

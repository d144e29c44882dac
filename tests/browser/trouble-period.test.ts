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

  it('is of all shifts in figure and line alike, with the worst cog beside it, and the line has a scale', async () => {
    const { page, faults } = await open();
    const worstCog = { teeth: 51, direction: 'to-larger', shifts: 8, troubleRate: 0.875, low: 0.5, high: 0.97 };
    await page.route(/\/api\/bikes$/, async (route) => {
      const answer = await route.fetch();
      const { bikes } = await answer.json();
      const [{ state, trend }] = bikes;
      const sinceAt = trend[trend.length - 1].at;
      Object.assign(state, { worstCog, troubleRate: 0.12, judgedShifts: 200, since: 'last-adjustment', sinceAt });
      await route.fulfill({ response: answer, json: { bikes } });
    });
    await page.goto('/');
    await loaded(page);
    const row = page.locator('.rack-row', { hasText: 'Worst' });
    expect(await row.locator('.rack-figure strong').textContent()).toBe('12\u00a0%');
    expect(await row.locator('.rack-figure b').textContent()).toBe(
      'Worst: 88\u00a0% of 8 onto the 51 from smaller cogs',
    );
    const scale = await row.locator('.rack-trend text').allTextContents();
    expect(scale).toEqual(['0\u00a0%', expect.stringMatching(/^\d*0\u00a0%$/)]);
    expect(await row.locator('.rack-trend small').textContent()).toContain(
      'Share of shifts in trouble, ride by ride; faint',
    );
    const dots = await row.locator('.trend-dot').count();
    expect(await row.locator('.trend-dot.is-past').count()).toBe(dots - 1);
    await page.goto('/workshop');
    await page.getByText('12\u00a0% of 200; worst: 88\u00a0% of 8 onto the 51 from smaller cogs').waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

import { describe, expect, it } from 'vitest';
import { browserPath, loaded, seriousFindings } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('a table in a panel of its own', () => {
  const open = openMadeUp();

  it('is a stop of the keyboard only while it scrolls: the rides', async () => {
    const { page, faults } = await open();
    let times = 1;
    await page.route('**/api/rides?*', async (route) => {
      const answer = await (await route.fetch()).json();
      const many = Array.from({ length: times }, (_, copy) =>
        answer.rides.map((ride: { id: string }) => ({ ...ride, id: `${ride.id}-${copy}` })),
      );
      await route.fulfill({ json: { rides: many.flat(), total: answer.total * times } });
    });
    const panel = page.getByRole('region', { name: 'Rides' }).locator('.scrolls');
    const stop = async () => {
      await page.goto('/bikes/b1');
      await loaded(page);
      return panel.evaluate(
        (element) =>
          new Promise<number>((done) => requestAnimationFrame(() => done((element as HTMLElement).tabIndex))),
      );
    };
    expect(await stop()).toBe(-1);
    times = 5;
    expect(await stop()).toBe(0);
    expect(await seriousFindings(page)).toEqual([]);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('and the figures of a chart, once they no longer fit', async () => {
    const { page } = await open();
    await page.goto('/bikes/b1');
    await loaded(page);
    await page.locator('.is-trend').getByRole('button', { name: 'Show as table' }).click();
    const figures = page.locator('.is-trend .scrolls');
    await figures.and(page.locator('[tabindex="0"]')).waitFor();
    await figures.evaluate((box) => {
      for (const row of [...box.querySelectorAll('tbody tr')].slice(1)) row.remove();
    });
    await figures.and(page.locator(':not([tabindex])')).waitFor();
    await page.context().close();
  });
});

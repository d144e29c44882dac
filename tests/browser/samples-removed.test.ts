import { describe, expect, it } from 'vitest';
import { browserPath, loaded, seriousFindings, sidewaysPx, type Width } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('the samples on the list of bikes', () => {
  const open = openMadeUp();

  it.each<Width>(['phone', 'desktop'])(
    'are marked, and go together once that was agreed to, at %s width',
    async (width) => {
      const { page, faults } = await open({ width });
      const gone: string[] = [];
      await page.route('**/api/bikes', async (route) => {
        const answer = await (await route.fetch()).json();
        for (const [i, bike] of answer.bikes.entries()) bike.sample = i > 0;
        answer.bikes = answer.bikes.filter(({ id }: { id: string }) => !gone.includes(id));
        await route.fulfill({ json: answer });
      });
      await page.route('**/api/bikes/*?withRides=true', (route) => {
        gone.push(new URL(route.request().url()).pathname.split('/').at(-1) ?? '');
        return route.fulfill({ status: 204 });
      });
      await page.goto('/');
      await loaded(page);
      const rows = page.locator('.rack-row');
      const all = await rows.count();
      expect(await page.getByText('sample', { exact: true }).filter({ visible: true }).count()).toBe(all - 1);
      // they count nowhere among the reader's own, and stand behind them
      expect(await page.locator('h1').textContent()).toBe('Your bike needs service');
      expect(await page.locator('.rack').first().locator('.rack-row').count()).toBe(1);
      const apart = page.getByRole('region', { name: '3 sample bikes' });
      expect(await apart.locator('.rack-row').count()).toBe(all - 1);
      expect(await seriousFindings(page)).toEqual([]);
      const remove = page.getByRole('button', { name: 'Remove the samples' });
      await remove.click();
      await page.getByRole('dialog').getByRole('button', { name: 'Keep it' }).click();
      expect(await rows.count()).toBe(all);
      await remove.click();
      await page.getByRole('dialog').getByRole('button', { name: 'Remove the samples' }).click();
      await expect.poll(() => rows.count()).toBe(1);
      expect(gone).toHaveLength(all - 1);
      expect(await remove.count()).toBe(0);
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
      expect(await sidewaysPx(page)).toBe(0);
      expect(faults).toEqual([]);
      await page.context().close();
    },
  );

  it('are all there is on the first start, and are named so in the list and on paper', async () => {
    const { page, faults } = await open();
    await page.route('**/api/bikes', async (route) => {
      const answer = await (await route.fetch()).json();
      for (const bike of answer.bikes) bike.sample = true;
      await route.fulfill({ json: answer });
    });
    await page.goto('/');
    await loaded(page);
    expect(await page.locator('h1').textContent()).toBe('No bike of your own yet');
    expect(await page.getByRole('group', { name: 'Show' }).isVisible()).toBe(false);
    await page.getByRole('link', { name: 'Workshop list' }).click();
    await page.locator('.workshop header', { hasText: '4 sample bikes' }).waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

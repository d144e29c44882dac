import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded, seriousFindings, sidewaysPx } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

/** Has the list answer with one bike that can hurt its rider, though its state is only to be watched. */
const withDanger = (page: Page): Promise<unknown> =>
  page.route('**/api/bikes', async (route) => {
    const answer = await (await route.fetch()).json();
    const watched = answer.bikes.find(({ id }: { id: string }) => id === 'b2');
    watched.state.dangers = ['The chain left the cassette once since the last adjustment: inspect before riding.'];
    await route.fulfill({ json: answer });
  });

describe.skipIf(!browserPath)('the list of bikes', () => {
  const open = openMadeUp();

  it('says on a phone all of what asks for hands, gives a line to what does not, and unfolds the rest', async () => {
    const { page, faults } = await open({ width: 'phone', touch: true });
    await withDanger(page);
    await page.goto('/');
    await loaded(page);
    const row = (name: string) => page.locator('.rack-row').filter({ hasText: name });
    const hurts = row('Saddle pass tourer');
    expect(await hurts.getByText('inspect before riding').isVisible()).toBe(true);
    expect(await hurts.locator('.rack-figure').isVisible()).toBe(true);
    const sound = row('Guide’s own');
    const heightPx = async (): Promise<number> => (await sound.boundingBox())!.height;
    expect(await sound.getByText('Shifts well').isVisible()).toBe(true);
    expect(await sound.locator('.rack-brief').textContent()).toMatch(/% of [\d,]+ in trouble$/);
    expect(await heightPx()).toBeLessThan(95);
    const more = sound.getByRole('button', { name: 'More of Guide’s own' });
    expect(await more.getAttribute('aria-expanded')).toBe('false');
    await more.tap();
    expect(await more.getAttribute('aria-expanded')).toBe('true');
    expect(new URL(page.url()).pathname).toBe('/');
    for (const part of ['.rack-trend', '.rack-figure', '.rack-bike'])
      expect(await sound.locator(part).isVisible()).toBe(true);
    expect(await heightPx()).toBeGreaterThan(160);
    expect(await sidewaysPx(page)).toBe(0);
    expect(await seriousFindings(page)).toEqual([]);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('has all in the row on a wide screen, and nothing to unfold', async () => {
    const { page } = await open();
    await page.goto('/');
    await loaded(page);
    const rows = await page.locator('.rack-row').count();
    expect(await page.locator('.rack-bike:visible').count()).toBe(rows);
    expect(await page.locator('.rack-figure:visible').count()).toBe(rows);
    expect(await page.locator('.rack-fold:visible').count()).toBe(0);
    await page.context().close();
  });

  it('has a group of its own for what is to be looked over first', async () => {
    const { page } = await open();
    await withDanger(page);
    await page.goto('/');
    await page
      .getByRole('heading', { level: 1, name: 'Look 1 of 4 bikes over before the next ride; 1 more needs service' })
      .waitFor();
    const groups = page.getByRole('group', { name: 'Show' }).getByRole('button');
    expect((await groups.allTextContents()).slice(0, 3)).toEqual(['All 4', 'Look over first 1', 'Needs service 1']);
    await groups.nth(1).click();
    expect(await page.locator('.rack-row:visible h2').allTextContents()).toEqual(['Saddle pass tourer']);
    expect(await page.locator('.rack-row:visible .rack-state strong').textContent()).toBe('Look it over first');
    await page.reload();
    await loaded(page);
    expect(await page.locator('.rack-row:visible').count()).toBe(1);
    await page.context().close();
  });

  it('leaves the keyboard where it is, and open what was unfolded, when it is drawn anew', async () => {
    const { page } = await open({ width: 'phone' });
    await page.goto('/');
    await loaded(page);
    const first = page.locator('.rack-row').first();
    const name = await first.locator('h2 a').textContent();
    await first.locator('.rack-fold').click();
    await first.locator('h2 a').focus();
    const old = await first.elementHandle();
    await page.getByLabel('Order').evaluate((select: HTMLSelectElement) => {
      select.value = 'resting';
      select.dispatchEvent(new Event('change'));
    });
    expect(await old!.evaluate((row) => row.isConnected)).toBe(false);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe(name);
    expect(await page.locator('.rack-row.is-unfolded h2').allTextContents()).toEqual([name]);
    await page.context().close();
  });
});

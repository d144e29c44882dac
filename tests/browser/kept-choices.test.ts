import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const shown = (page: Page): Promise<string[]> =>
  page.locator('.rack-row').filter({ visible: true }).getByRole('heading').allTextContents();

const pressed = (page: Page, group: string): Promise<string[]> =>
  page.getByRole('group', { name: group }).locator('[aria-pressed=true]').allTextContents();

describe.skipIf(!browserPath)('what a reader picks', () => {
  const open = openMadeUp();

  it('in the list of bikes is still picked on the way back and after loading anew', async () => {
    const { page, faults } = await open();
    await page.goto('/');
    await loaded(page);
    expect(await shown(page)).toHaveLength(4);
    await page.getByLabel('Name').fill('hut');
    expect(await shown(page)).toEqual(['Larch hut hardtail', 'Lower hut mule']);
    await page.getByRole('button', { name: /^Too little data/ }).click();
    const still = async (): Promise<void> => {
      await loaded(page);
      expect(await shown(page)).toEqual(['Lower hut mule']);
      expect(await page.getByLabel('Name').inputValue()).toBe('hut');
      expect(await pressed(page, 'Show')).toEqual([expect.stringMatching(/^Too little data/)]);
    };
    await page.getByRole('link', { name: 'Lower hut mule' }).click();
    await page.getByRole('heading', { level: 1, name: 'Lower hut mule' }).waitFor();
    await page.goBack();
    await page.locator('.rack').waitFor();
    await still();
    await page.reload();
    await still();
    await page.getByLabel('Name').fill('');
    await page.getByRole('button', { name: /^All/ }).click();
    expect(new URL(page.url()).search).toBe('');
    expect(await shown(page)).toHaveLength(4);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('hides no bike where there are too few to pick from', async () => {
    const { page } = await open();
    await page.route('**/api/bikes', async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ json: { bikes: (await answer.json()).bikes.slice(0, 2) } });
    });
    await page.goto('/?name=mule&state=fine');
    await loaded(page);
    expect(await shown(page)).toHaveLength(2);
    await page.context().close();
  });

  it('on a bike’s page is still picked after loading anew, and an address that asks for what is not there shows what is', async () => {
    const { page, faults } = await open({ width: 'phone' });
    await page.goto('/bikes/b1');
    await loaded(page);
    for (const way of ['By load', 'Before and after']) {
      await page.getByRole('button', { name: way }).click();
      await page.reload();
      await loaded(page);
      expect(await pressed(page, 'Open the chart by')).toEqual([way]);
    }
    await page.goto('/bikes/b1?opening=adjustment&adjustment=77');
    await page.getByRole('heading', { name: /^Before and after: / }).waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

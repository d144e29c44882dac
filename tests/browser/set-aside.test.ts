import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded, seriousFindings, sidewaysPx } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

const bikeOf = (name: string) => ({ name, chainrings: [32], cassette: [10, 12, 14, 16, 18, 21, 24, 28, 33] });

describe.skipIf(!browserPath)('setting a bike aside for the workshop', () => {
  const real = withRealServer();

  const addBike = async (name: string): Promise<string> => {
    const response = await fetch(`${real.server.address}/api/bikes`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(bikeOf(name)),
    });
    return ((await response.json()) as { id: string }).id;
  };

  it('is done by hand, shows in the list, on the sheet and in the file, and is taken back by one click', async () => {
    for (const name of ['Alder', 'Birch', 'Cedar']) await addBike(name);
    const id = await addBike('Dogwood');
    const { page, faults } = await real.open({ width: 'phone' });
    await page.goto(`/bikes/${id}`);
    await page.getByRole('button', { name: 'Set aside for the workshop' }).click();
    const form = page.getByRole('form', { name: 'Set aside for the workshop' });
    await form.getByLabel('Why, or what to do').fill('Rear brake rubs');
    expect(await form.getByLabel('Since').inputValue()).toMatch(/^\d{4}-\d\d-\d\d$/);
    await form.getByLabel('Since').fill('2999-05-03');
    await form.getByRole('button', { name: 'Set it aside' }).click();
    await form.getByText('This day is still to come.').waitFor();
    await form.getByLabel('Since').fill('2026-05-03');
    expect(await seriousFindings(page)).toEqual([]);
    expect(await sidewaysPx(page)).toBe(0);
    await form.getByRole('button', { name: 'Set it aside' }).click();
    const panel = page.getByRole('region', { name: 'Set aside for the workshop' });
    await panel.getByText('Rear brake rubs').waitFor();
    expect(await panel.textContent()).toContain('since 3 May 2026');

    await page.goto(`/bikes/${id}/sheet`);
    await page.locator('.sheet-aside', { hasText: 'since 3 May 2026: Rear brake rubs' }).waitFor();

    await page.goto('/');
    await loaded(page);
    expect(await page.locator('h1').textContent()).toContain('1 set aside for the workshop');
    expect(await page.locator('.rack-row h2').first().textContent()).toBe('Dogwood');
    await page.getByRole('button', { name: 'Set aside 1' }).click();
    expect(await page.locator('.rack-row:visible').count()).toBe(1);
    expect(await sidewaysPx(page)).toBe(0);

    await page.goto('/workshop?only=hands');
    await page.locator('.workshop-aside', { hasText: 'Rear brake rubs' }).waitFor();
    expect(await page.locator('tbody tr').count()).toBe(1);
    expect(await page.locator('tbody .workshop-done.is-open').count()).toBe(1);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).click(),
    ]);
    expect(readFileSync(await file.path(), 'utf8')).toContain('yes,2026-05-03,Rear brake rubs');

    await page.goto(`/bikes/${id}`);
    await page.getByRole('button', { name: 'Back in use' }).click();
    await page.getByRole('button', { name: 'Set aside for the workshop' }).waitFor();
    expect(await panel.count()).toBe(0);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('is left by Escape with nothing set', async () => {
    const id = await addBike('Elder');
    const { page, faults } = await real.open();
    await page.goto(`/bikes/${id}`);
    const button = page.getByRole('button', { name: 'Set aside for the workshop' });
    await button.click();
    await page.keyboard.press('Escape');
    expect(await page.locator('.workshop-mark form').count()).toBe(0);
    expect(await button.evaluate((element) => element === document.activeElement)).toBe(true);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

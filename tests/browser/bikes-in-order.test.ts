import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('the list of bikes', () => {
  const open = openMadeUp();

  it('is sorted as picked, and goes to paper and into a file in that order', async () => {
    const { page, faults } = await open({ width: 'desktop' });
    await page.goto('/');
    await loaded(page);
    const names = () => page.locator('.rack-row h2').allTextContents();
    const byNeed = await names();
    const sorted = [...byNeed].sort(new Intl.Collator('en', { numeric: true }).compare);
    expect(byNeed).not.toEqual(sorted);
    await page.getByLabel('Order').selectOption('name');
    expect(await names()).toEqual(sorted);
    await page.reload();
    await loaded(page);
    expect(await names()).toEqual(sorted);

    await page.getByRole('link', { name: 'Workshop list' }).click();
    await page.getByRole('heading', { level: 1, name: 'Workshop list' }).waitFor();
    expect(await page.locator('tbody th a').allTextContents()).toEqual(sorted);
    const paper = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(paper.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(1);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as CSV' }).click(),
    ]);
    const rows = readFileSync(await file.path(), 'utf8')
      .trimEnd()
      .split('\r\n')
      .slice(1);
    expect(rows.map((row) => sorted.findIndex((name) => row.includes(name)))).toEqual(sorted.map((_, i) => i));
    await page.getByRole('link', { name: 'All bikes' }).click();
    await loaded(page);
    expect(await names()).toEqual(sorted);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('leads to rides whose events stand on a phone in the order in which Tab goes', async () => {
    const { page } = await open({ width: 'phone' });
    await page.goto('/rides/b1r2');
    await loaded(page);
    const top = async (selector: string): Promise<number> => (await page.locator(selector).boundingBox())!.y;
    expect(await top('.event-column')).toBeLessThan(await top('.event-panel'));
    await page.context().close();
  });
});

import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('which way something was turned', () => {
  const open = openMadeUp();

  it('begins as advised, and is asked for again where the entry goes the other way', async () => {
    const { page, faults } = await open();
    const sent: unknown[] = [];
    await page.route('**/adjustments', (route) => {
      if (route.request().method() === 'POST') sent.push(route.request().postDataJSON());
      return route.fulfill({ status: 201, json: {} });
    });
    await page.goto('/bikes/b1');
    await loaded(page);
    await page.getByRole('button', { name: 'Done? Log it' }).click();
    const form = page.getByRole('form', { name: 'Log an adjustment' });
    const way = form.getByLabel('Which way');
    expect(await way.locator('option:checked').textContent()).toBe('anticlockwise, more tension');
    await form.getByLabel('Amount in clicks').fill('2');
    await way.selectOption({ label: 'clockwise, less tension' });
    await form.getByRole('button', { name: 'Log it' }).click();
    const question = page.getByRole('dialog');
    expect(await question.textContent()).toContain('The next step asks for anticlockwise; this says clockwise.');
    await question.getByRole('button', { name: 'Change it' }).click();
    expect(sent).toEqual([]);
    await form.getByRole('button', { name: 'Log it' }).click();
    await question.getByRole('button', { name: 'Log it so' }).click();
    await expect.poll(() => sent).toMatchObject([{ parameter: 'cable-tension', amount: -2 }]);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});

import { describe, expect, it } from 'vitest';
import { browserPath, loaded } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

describe.skipIf(!browserPath)('the moment of an adjustment', () => {
  const open = openMadeUp();

  it('is asked for again where its year has five digits, which the field does not take by hand', async () => {
    const { page, faults } = await open();
    await page.goto('/bikes/b1');
    await loaded(page);
    await page.getByRole('button', { name: 'Log an adjustment' }).click();
    const form = page.getByRole('form', { name: 'Log an adjustment' });
    const when = form.getByLabel('When');
    await when.focus();
    await page.keyboard.type('03052026614');
    expect(await when.inputValue()).toMatch(/^2026-/);
    await when.evaluate((field: HTMLInputElement) => {
      field.value = '20266-05-03T14:05';
    });
    await form.getByLabel('Amount').fill('2');
    await form.getByLabel('Which way').selectOption('1');
    expect(await form.locator('[aria-live]').textContent()).toMatch(/^Will be logged as: /);
    await form.getByRole('button', { name: 'Log it' }).click();
    expect(await form.getByRole('alert').textContent()).toBe('Put in the day and the time when it was done.');
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
